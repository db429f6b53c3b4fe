package example.tamponade.app.web;

import com.nimbusds.jose.jwk.JWKSet;
import example.tamponade.app.keys.KeyFile;
import java.util.List;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/** Publishes the keys that the adapter signs with. */
@RestController
public class KeysController {

    private final List<KeyFile> files;

    /** Publishes the keys of these files. */
    public KeysController(List<KeyFile> files) {
        this.files = files;
    }

    /** Every key, those that sign and those that will or did, without their private parts (RFC 7517). */
    @GetMapping(path = "/.well-known/jwks.json", produces = MediaType.APPLICATION_JSON_VALUE)
    String keys() {
        return new JWKSet(files.stream()
                        .flatMap(it -> it.published().stream())
                        .distinct()
                        .toList())
                .toString(true);
    }
}
