package example.tamponade.app;

import java.util.List;

/** What readers of text, numbers, CSV, HL7 and JSON have stumbled over elsewhere; from memory. */
public final class AwkwardText {

    /** Pieces of text to put into an input. */
    public static final List<String> TOKENS = List.of(
            "\u0000",
            "\uFEFF",
            "\r",
            "\n",
            "\"",
            "\"\"",
            "|",
            "^",
            "~",
            "&",
            "\\",
            ";",
            ",",
            "{",
            "}",
            "[",
            "null",
            "NaN",
            "-0",
            "1e999999999",
            "9".repeat(400),
            "\uD800",
            "\u202E",
            "\u001c\r",
            "\u000b",
            "MSH|^~\\&|",
            "OBX|",
            "<![CDATA[");

    private AwkwardText() {}
}
