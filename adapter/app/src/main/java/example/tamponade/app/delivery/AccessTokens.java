package example.tamponade.app.delivery;

import example.tamponade.app.keys.KeyFile;
import java.util.List;
import org.springframework.http.client.ClientHttpRequestFactory;
import org.springframework.http.client.ClientHttpRequestInterceptor;
import org.springframework.http.converter.FormHttpMessageConverter;
import org.springframework.security.oauth2.client.AuthorizedClientServiceOAuth2AuthorizedClientManager;
import org.springframework.security.oauth2.client.ClientCredentialsOAuth2AuthorizedClientProvider;
import org.springframework.security.oauth2.client.InMemoryOAuth2AuthorizedClientService;
import org.springframework.security.oauth2.client.OAuth2AuthorizedClientService;
import org.springframework.security.oauth2.client.endpoint.NimbusJwtClientAuthenticationParametersConverter;
import org.springframework.security.oauth2.client.endpoint.OAuth2ClientCredentialsGrantRequest;
import org.springframework.security.oauth2.client.endpoint.RestClientClientCredentialsTokenResponseClient;
import org.springframework.security.oauth2.client.http.OAuth2ErrorResponseErrorHandler;
import org.springframework.security.oauth2.client.registration.ClientRegistration;
import org.springframework.security.oauth2.client.registration.InMemoryClientRegistrationRepository;
import org.springframework.security.oauth2.client.web.client.OAuth2ClientHttpRequestInterceptor;
import org.springframework.security.oauth2.core.AuthorizationGrantType;
import org.springframework.security.oauth2.core.ClientAuthenticationMethod;
import org.springframework.security.oauth2.core.http.converter.OAuth2AccessTokenResponseHttpMessageConverter;
import org.springframework.web.client.RestClient;

/**
 * Puts an access token on each request. A token is kept until it ends or is turned away; the next request gets a new one.
 */
final class AccessTokens {

    private AccessTokens() {}

    static ClientHttpRequestInterceptor of(TokenSettings settings, ClientHttpRequestFactory requests) {
        ClientRegistration registration = ClientRegistration.withRegistrationId("destination")
                .clientId(settings.client())
                .clientAuthenticationMethod(ClientAuthenticationMethod.PRIVATE_KEY_JWT)
                .authorizationGrantType(AuthorizationGrantType.CLIENT_CREDENTIALS)
                .tokenUri(settings.address().toString())
                .scope(settings.scope().split(" "))
                .build();
        InMemoryClientRegistrationRepository registrations = new InMemoryClientRegistrationRepository(registration);
        OAuth2AuthorizedClientService kept = new InMemoryOAuth2AuthorizedClientService(registrations);
        ClientCredentialsOAuth2AuthorizedClientProvider provider =
                new ClientCredentialsOAuth2AuthorizedClientProvider();
        provider.setAccessTokenResponseClient(tokens(new KeyFile(settings.keys()), requests));
        AuthorizedClientServiceOAuth2AuthorizedClientManager manager =
                new AuthorizedClientServiceOAuth2AuthorizedClientManager(registrations, kept);
        manager.setAuthorizedClientProvider(provider);
        OAuth2ClientHttpRequestInterceptor interceptor = new OAuth2ClientHttpRequestInterceptor(manager);
        interceptor.setClientRegistrationIdResolver(request -> registration.getRegistrationId());
        interceptor.setAuthorizationFailureHandler(
                OAuth2ClientHttpRequestInterceptor.authorizationFailureHandler(kept));
        return interceptor;
    }

    private static RestClientClientCredentialsTokenResponseClient tokens(
            KeyFile keys, ClientHttpRequestFactory requests) {
        NimbusJwtClientAuthenticationParametersConverter<OAuth2ClientCredentialsGrantRequest> assertion =
                new NimbusJwtClientAuthenticationParametersConverter<>(registration -> keys.signing());
        assertion.setJwtClientAssertionCustomizer(it -> it.getHeaders().type("JWT"));
        RestClientClientCredentialsTokenResponseClient tokens = new RestClientClientCredentialsTokenResponseClient();
        tokens.addParametersConverter(assertion);
        tokens.setRestClient(RestClient.builder()
                .requestFactory(requests)
                .messageConverters(
                        List.of(new FormHttpMessageConverter(), new OAuth2AccessTokenResponseHttpMessageConverter()))
                .defaultStatusHandler(new OAuth2ErrorResponseErrorHandler())
                .build());
        return tokens;
    }
}
