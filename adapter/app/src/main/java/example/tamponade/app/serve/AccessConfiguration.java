package example.tamponade.app.serve;

import example.tamponade.app.access.AccessLog;
import example.tamponade.app.access.AccessLogWriter;
import example.tamponade.app.access.OperatorKey;
import example.tamponade.app.access.Role;
import example.tamponade.app.access.TokenCallers;
import example.tamponade.app.database.Database;
import example.tamponade.app.web.AccessAnswers;
import example.tamponade.app.web.AccessLogFilter;
import java.io.IOException;
import java.net.InetAddress;
import java.net.URI;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.springframework.boot.web.server.autoconfigure.ServerProperties;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.HttpMethod;
import org.springframework.security.authentication.AuthenticationManager;
import org.springframework.security.authentication.AuthenticationProvider;
import org.springframework.security.authentication.ProviderManager;
import org.springframework.security.config.ObjectPostProcessor;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configuration.EnableWebSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.annotation.web.configurers.AuthorizeHttpRequestsConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.oauth2.core.DelegatingOAuth2TokenValidator;
import org.springframework.security.oauth2.jose.jws.SignatureAlgorithm;
import org.springframework.security.oauth2.jwt.JwtClaimNames;
import org.springframework.security.oauth2.jwt.JwtClaimValidator;
import org.springframework.security.oauth2.jwt.JwtIssuerValidator;
import org.springframework.security.oauth2.jwt.JwtTimestampValidator;
import org.springframework.security.oauth2.jwt.JwtTypeValidator;
import org.springframework.security.oauth2.jwt.NimbusJwtDecoder;
import org.springframework.security.oauth2.server.resource.authentication.JwtAuthenticationProvider;
import org.springframework.security.oauth2.server.resource.web.authentication.BearerTokenAuthenticationFilter;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.access.intercept.AuthorizationFilter;
import org.springframework.security.web.authentication.AuthenticationEntryPointFailureHandler;
import org.springframework.security.web.firewall.RequestRejectedHandler;

/** Wires who is let in, and who is written down. */
@Configuration(proxyBeanMethods = false)
@EnableWebSecurity
class AccessConfiguration {

    @Bean
    OperatorKey operatorKey(ServerSettings settings) throws IOException {
        return OperatorKey.in(settings.data(), System.out);
    }

    @Bean
    AccessLog accessLog(Database database) {
        return new AccessLog(database);
    }

    @Bean
    AccessLogWriter accessLogWriter(Database database) {
        return new AccessLogWriter(database);
    }

    @Bean
    AuthenticationManager authenticationManager(ServerSettings settings, OperatorKey key) throws IOException {
        List<AuthenticationProvider> providers = new ArrayList<>(List.of(key));
        ServerSettings.Access access = settings.access();
        if (access.issuer() != null) {
            JwtAuthenticationProvider tokens = new JwtAuthenticationProvider(decoder(access, access.issuer()));
            tokens.setJwtAuthenticationConverter(new TokenCallers());
            providers.add(tokens);
        }
        return new ProviderManager(providers);
    }

    private static NimbusJwtDecoder decoder(ServerSettings.Access access, URI issuer) throws IOException {
        URI keys = Objects.requireNonNull(
                access.keys(), "tamponade.access.keys: give the address of the issuer's public keys (a JWK Set)");
        if (!"https".equals(keys.getScheme())
                && !InetAddress.getByName(keys.getHost()).isLoopbackAddress()) {
            throw new IOException("tamponade.access.keys: keys are read over TLS alone; give an https address");
        }
        String audience = Objects.requireNonNull(
                access.audience(), "tamponade.access.audience: say what tokens for this server must be for");
        NimbusJwtDecoder decoder = NimbusJwtDecoder.withJwkSetUri(keys.toString())
                .jwsAlgorithms(all -> all.addAll(List.of(
                        SignatureAlgorithm.RS256,
                        SignatureAlgorithm.RS384,
                        SignatureAlgorithm.RS512,
                        SignatureAlgorithm.PS256,
                        SignatureAlgorithm.ES256,
                        SignatureAlgorithm.ES384)))
                .build();
        decoder.setJwtValidator(new DelegatingOAuth2TokenValidator<>(
                new JwtIssuerValidator(issuer.toString()),
                new JwtTimestampValidator(),
                types(),
                new JwtClaimValidator<Object>(JwtClaimNames.EXP, Objects::nonNull),
                new JwtClaimValidator<List<String>>(JwtClaimNames.AUD, it -> it != null && it.contains(audience))));
        return decoder;
    }

    // RFC 9068 calls an access token so; many servers call it a JWT, or nothing.
    private static JwtTypeValidator types() {
        JwtTypeValidator types = new JwtTypeValidator(List.of("at+jwt", "application/at+jwt", "JWT"));
        types.setAllowEmpty(true);
        return types;
    }

    @Bean
    SecurityFilterChain access(
            HttpSecurity http,
            ServerSettings settings,
            ServerProperties server,
            AuthenticationManager manager,
            AccessLogWriter log,
            Clock clock)
            throws IOException {
        boolean isEncrypted = server.getSsl() != null && server.getSsl().isEnabled();
        settings.access().demandEncryption(server.getAddress(), isEncrypted, "server.ssl.bundle");
        AccessAnswers answers = new AccessAnswers();
        http.authorizeHttpRequests(AccessConfiguration::rules)
                .httpBasic(basic -> basic.authenticationEntryPoint(answers))
                .exceptionHandling(it -> it.authenticationEntryPoint(answers).accessDeniedHandler(answers))
                .authenticationManager(manager)
                .sessionManagement(it -> it.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
                .csrf(AbstractHttpConfigurer::disable)
                .headers(AbstractHttpConfigurer::disable)
                .logout(AbstractHttpConfigurer::disable)
                .requestCache(AbstractHttpConfigurer::disable)
                .addFilterAfter(new AccessLogFilter(log, clock), AuthorizationFilter.class);
        if (settings.access().issuer() != null) {
            // That the keys cannot be asked for is no failure of ours.
            AuthenticationEntryPointFailureHandler failed = new AuthenticationEntryPointFailureHandler(answers);
            failed.setRethrowAuthenticationServiceException(false);
            http.oauth2ResourceServer(it -> it.jwt(jwt -> jwt.authenticationManager(manager))
                    .authenticationEntryPoint(answers)
                    .withObjectPostProcessor(new ObjectPostProcessor<BearerTokenAuthenticationFilter>() {
                        @Override
                        public <O extends BearerTokenAuthenticationFilter> O postProcess(O filter) {
                            filter.setAuthenticationFailureHandler(failed);
                            return filter;
                        }
                    }));
        }
        return http.build();
    }

    @Bean
    RequestRejectedHandler rejected() {
        return AccessAnswers::rejected;
    }

    // From top to bottom; what of the record somebody sees is asked where it is read.
    private static void rules(
            AuthorizeHttpRequestsConfigurer<HttpSecurity>.AuthorizationManagerRequestMatcherRegistry rules) {
        String sender = Role.SENDER.name();
        String reader = Role.READER.name();
        String auditor = Role.AUDITOR.name();
        String operator = Role.OPERATOR.name();
        rules.requestMatchers("/", "/error", "/schema", "/.well-known/jwks.json", "/webjars/**", "/assets/**")
                .permitAll()
                // On a port of their own alone.
                .requestMatchers("/health/**", "/prometheus")
                .permitAll()
                .requestMatchers(HttpMethod.GET, "/cds-services")
                .permitAll()
                .requestMatchers("/fhir/metadata", "/fhir/.well-known/smart-configuration")
                .permitAll()
                .requestMatchers(HttpMethod.POST, "/events", "/messages")
                .hasRole(sender)
                .requestMatchers("/intake", "/ledger")
                .hasAnyRole(sender, operator)
                .requestMatchers(
                        "/quarantine/**",
                        "/deliveries/**",
                        "/fhir/AuditEvent/**",
                        "/fhir/Subscription/**",
                        "/operations/**")
                .hasRole(operator)
                .requestMatchers("/cases/*/*", "/exports/**", "/fhir/$export", "/fhir/Patient/$export")
                .hasAnyRole(reader, auditor)
                .requestMatchers("/measures", "/fhir/Measure/**", "/fhir/Measure")
                .hasAnyRole(reader, auditor)
                .requestMatchers("/fhir/Group/*/$export")
                .hasAnyRole(reader, auditor)
                .requestMatchers(HttpMethod.POST, "/fhir/*/$validate")
                .authenticated()
                .requestMatchers("/case", "/case/**", "/cases", "/facilities/**", "/fhir/**", "/cds-services/**")
                .hasRole(reader)
                .anyRequest()
                .authenticated();
    }
}
