package org.hoodkeeper.store;

import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;
import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType1Font;
import org.apache.pdfbox.pdmodel.font.Standard14Fonts.FontName;
import org.hoodkeeper.kernel.Refused;

/** Draws labels as a file to print at full size: a code for a reader, and the same in words for a person. */
public final class LabelPrinter {

    /** More than any store prints at once; a larger wish is a slip of the hand. */
    public static final int MOST = 5_000;

    private static final float POINTS_A_MM = 72f / 25.4f;

    /** Empty modules round a QR code, as ISO/IEC 18004 asks. */
    private static final int QUIET = 4;

    private LabelPrinter() {}

    /**
     * One label.
     *
     * @param label in large letters
     * @param about model and size, or what sort of thing; may be empty
     */
    public record Label(String label, String about) {}

    /**
     * Writes the sheets as PDF.
     *
     * @param site the site's code
     * @param first place on the first page that is still free, from 1
     * @throws Refused {@code labelSheet.many} above {@link #MOST}, {@code labelSheet.none}, {@code labelSheet.first.range} when the first
     *     place is not on the sheet
     */
    public static void print(String site, List<Label> labels, LabelSheet sheet, int first, OutputStream out)
            throws IOException {
        requireSheet(labels, sheet, first);
        try (PDDocument document = new PDDocument()) {
            document.getDocumentInformation().setTitle("Labels " + site);
            PDFont bold = new PDType1Font(FontName.HELVETICA_BOLD);
            PDFont plain = new PDType1Font(FontName.HELVETICA);
            int place = first - 1;
            for (int from = 0; from < labels.size(); ) {
                PDPage page = new PDPage(new PDRectangle(mm(sheet.pageWidth()), mm(sheet.pageHeight())));
                document.addPage(page);
                try (PDPageContentStream pen = new PDPageContentStream(document, page)) {
                    for (; place < sheet.labelsAPage() && from < labels.size(); place++, from++) {
                        draw(pen, site, labels.get(from), sheet, place, bold, plain);
                    }
                }
                place = 0;
            }
            document.save(out);
        }
    }

    /** @throws Refused as {@link #print} */
    public static void requireSheet(List<Label> labels, LabelSheet sheet, int first) {
        if (labels.isEmpty()) {
            throw new Refused("labelSheet.none");
        }
        if (labels.size() > MOST) {
            throw new Refused("labelSheet.many", labels.size(), MOST);
        }
        if (first < 1 || first > sheet.labelsAPage()) {
            throw new Refused("labelSheet.first.range", first, 1, sheet.labelsAPage());
        }
    }

    private static void draw(
            PDPageContentStream pen, String site, Label label, LabelSheet sheet, int place, PDFont bold, PDFont plain)
            throws IOException {
        String code = LabelCode.print(site, label.label());
        float side = Math.min(sheet.height() - 2, sheet.width() * 0.45f);
        float left = sheet.left(place) + 1;
        float foot = sheet.foot(place) + (sheet.height() - side) / 2;
        code(pen, code, left, foot, side);
        float text = left + side + 1;
        float room = sheet.left(place) + sheet.width() - 2 - text;
        float middle = sheet.foot(place) + sheet.height() / 2;
        write(pen, bold, label.label(), text, middle, room, sheet.height() * 0.5f);
        write(pen, plain, label.about(), text, middle - sheet.height() * 0.2f, room, sheet.height() * 0.26f);
        write(pen, plain, code, text, middle - sheet.height() * 0.38f, room, sheet.height() * 0.2f);
    }

    /** The whole square with its quiet border fits into {@code side} mm. */
    private static void code(PDPageContentStream pen, String text, float left, float foot, float side)
            throws IOException {
        ByteMatrix modules = modules(text);
        float module = side / (modules.getWidth() + 2 * QUIET);
        for (int row = 0; row < modules.getHeight(); row++) {
            for (int column = 0; column < modules.getWidth(); column++) {
                if (modules.get(column, row) == 1) {
                    pen.addRect(
                            mm(left + (column + QUIET) * module),
                            mm(foot + (modules.getHeight() - row - 1 + QUIET) * module),
                            mm(module),
                            mm(module));
                }
            }
        }
        pen.fill();
    }

    private static ByteMatrix modules(String text) {
        try {
            return Encoder.encode(text, ErrorCorrectionLevel.M).getMatrix();
        } catch (WriterException tooLong) {
            throw new IllegalArgumentException("a label's text always fits into a code: " + text, tooLong);
        }
    }

    /** As large as it fits, at most {@code most} points tall. */
    private static void write(
            PDPageContentStream pen, PDFont font, String text, float left, float foot, float room, float most)
            throws IOException {
        String printable = printable(font, text);
        if (printable.isEmpty()) {
            return;
        }
        float widthAtOne = font.getStringWidth(printable) / 1000;
        pen.beginText();
        pen.setFont(font, Math.min(most, mm(room) / widthAtOne));
        pen.newLineAtOffset(mm(left), mm(foot));
        pen.showText(printable);
        pen.endText();
    }

    /** Signs that the printer's own fonts lack are left out of the small print; labels have none of them. */
    private static String printable(PDFont font, String text) {
        StringBuilder kept = new StringBuilder();
        text.codePoints().filter(sign -> has(font, sign)).forEach(kept::appendCodePoint);
        return kept.toString();
    }

    private static boolean has(PDFont font, int sign) {
        try {
            font.encode(Character.toString(sign));
            return true;
        } catch (IllegalArgumentException | IOException lacking) {
            return false;
        }
    }

    private static float mm(float millimetres) {
        return millimetres * POINTS_A_MM;
    }
}
