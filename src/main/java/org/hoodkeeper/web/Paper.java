package org.hoodkeeper.web;

import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Objects;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.core.io.ClassPathResource;
import org.springframework.stereotype.Component;
import org.thymeleaf.context.Context;
import org.thymeleaf.spring6.SpringTemplateEngine;

/** Prints a template as PDF: the pages' own words on numbered sheets. */
@Component
public class Paper {

    /** The typeface that the PDF library brings along: it knows every sign of the languages that the service speaks. */
    private static final String TYPEFACE = "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";

    private final SpringTemplateEngine templates;

    Paper(SpringTemplateEngine templates) {
        this.templates = templates;
    }

    /**
     * @param template well-formed, without addresses
     * @param style name of its style sheet
     */
    public byte[] print(String template, String style, Map<String, Object> model) {
        Context context = new Context(LocaleContextHolder.getLocale(), model);
        String sheet = templates.process(template, context);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        PdfRendererBuilder builder = new PdfRendererBuilder();
        builder.useFont(Paper::typeface, "Sheet");
        builder.useFastMode();
        builder.withHtmlContent(styled(sheet, style), null);
        builder.toStream(out);
        try {
            builder.run();
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
        return out.toByteArray();
    }

    /** A narrow space is no sign of that typeface; a plain one that does not break is. */
    private static String styled(String sheet, String name) {
        try (InputStream css = new ClassPathResource("static/css/" + name).getInputStream()) {
            String style = new String(css.readAllBytes(), StandardCharsets.UTF_8);
            return sheet.replace('\u202f', '\u00a0')
                    .replace('\u2212', '-')
                    .replace("</head>", "<style>" + style + "</style></head>");
        } catch (IOException missing) {
            throw new UncheckedIOException(missing);
        }
    }

    private static InputStream typeface() {
        return Objects.requireNonNull(PDDocument.class.getResourceAsStream(TYPEFACE), "the PDF library's own typeface");
    }
}
