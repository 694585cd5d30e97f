package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.store.LabelPrinter.Label;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A sheet as it comes from a printer of 200 dots an inch, read back by a reader of codes. */
class LabelPrinterTest {

    private static byte[] print(List<Label> labels, LabelSheet sheet, int first) throws Exception {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        LabelPrinter.print("ferrow", labels, sheet, first, out);
        return out.toByteArray();
    }

    /** What a reader held over each label in turn says. */
    private static List<String> readBack(byte[] pdf, LabelSheet sheet) throws Exception {
        List<String> read = new ArrayList<>();
        try (PDDocument document = Loader.loadPDF(pdf)) {
            BufferedImage page = new PDFRenderer(document).renderImageWithDPI(0, 200);
            double dots = 200 / 25.4;
            for (int place = 0; place < sheet.labelsAPage(); place++) {
                int left = (int) Math.round(sheet.left(place) * dots);
                int top = (int) Math.round((sheet.pageHeight() - sheet.foot(place) - sheet.height()) * dots);
                int width = Math.min((int) (sheet.width() * dots), page.getWidth() - left);
                int height = Math.min((int) (sheet.height() * dots), page.getHeight() - top);
                read.add(readBack(page.getSubimage(left, top, width, height)));
            }
        }
        return read;
    }

    private static String readBack(BufferedImage label) throws Exception {
        int[] dots = label.getRGB(0, 0, label.getWidth(), label.getHeight(), null, 0, label.getWidth());
        var source = new RGBLuminanceSource(label.getWidth(), label.getHeight(), dots);
        return new QRCodeReader()
                .decode(new BinaryBitmap(new HybridBinarizer(source)))
                .getText();
    }

    @ParameterizedTest
    @EnumSource(LabelSheet.class)
    void everyLabelOfAFullSheetIsReadBack(LabelSheet sheet) throws Exception {
        List<Label> labels = IntStream.rangeClosed(101, 100 + sheet.labelsAPage())
                .mapToObj(number -> new Label("S-" + number, "H20 M"))
                .toList();
        List<String> codes = labels.stream()
                .map(label -> LabelCode.print("ferrow", label.label()))
                .toList();
        assertThat(readBack(print(labels, sheet, 1), sheet)).isEqualTo(codes);
    }

    @Test
    void theWordsStandBesideTheCode() throws Exception {
        byte[] pdf = print(List.of(new Label("S-098", "H20 talla Ł M")), LabelSheet.A4_70_37, 1);
        try (PDDocument document = Loader.loadPDF(pdf)) {
            assertThat(new PDFTextStripper().getText(document))
                    .contains("S-098")
                    .contains("H20 talla  M")
                    .contains("ferrow/S-098/");
        }
    }

    /** A sheet of which 23 labels are used has room for one; the next goes on a new page. */
    @Test
    void aUsedSheetIsFilledFirst() throws Exception {
        byte[] pdf = print(List.of(new Label("S-1", ""), new Label("S-2", "")), LabelSheet.A4_70_37, 24);
        try (PDDocument document = Loader.loadPDF(pdf)) {
            assertThat(document.getNumberOfPages()).isEqualTo(2);
        }
    }

    @Test
    void whatDoesNotFitIsRefused() {
        Label one = new Label("S-1", "");
        assertThatThrownBy(() -> print(List.of(one), LabelSheet.A4_70_37, 25))
                .isInstanceOf(Refused.class)
                .hasMessageContaining("labelSheet.first.range");
        assertThatThrownBy(() -> print(List.of(), LabelSheet.A4_70_37, 1)).hasMessageContaining("labelSheet.none");
        assertThatThrownBy(() -> print(java.util.Collections.nCopies(5_001, one), LabelSheet.A4_70_37, 1))
                .hasMessageContaining("labelSheet.many");
    }
}
