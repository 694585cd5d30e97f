package org.hoodkeeper.store;

/**
 * The sheets that labels are printed on, in millimetres. Sizes are those of common label paper; a roll printer takes one label
 * a page. Common practice, no source.
 */
public enum LabelSheet {
    A4_70_37(210, 297, 3, 8, 70, 37, 0, 0.5f),
    A4_63_38(210, 297, 3, 7, 63.5f, 38.1f, 2.5f, 15.1f),
    A4_38_21(210, 297, 5, 13, 38.1f, 21.2f, 2.5f, 10.7f),
    LETTER_67_25(215.9f, 279.4f, 3, 10, 66.7f, 25.4f, 3.2f, 12.7f),
    ROLL_57_32(57, 32, 1, 1, 57, 32, 0, 0);

    private final float pageWidth;
    private final float pageHeight;
    private final int columns;
    private final int rows;
    private final float width;
    private final float height;
    private final float gap;
    private final float top;

    LabelSheet(
            float pageWidth, float pageHeight, int columns, int rows, float width, float height, float gap, float top) {
        this.pageWidth = pageWidth;
        this.pageHeight = pageHeight;
        this.columns = columns;
        this.rows = rows;
        this.width = width;
        this.height = height;
        this.gap = gap;
        this.top = top;
    }

    public int labelsAPage() {
        return columns * rows;
    }

    float pageWidth() {
        return pageWidth;
    }

    float pageHeight() {
        return pageHeight;
    }

    float width() {
        return width;
    }

    float height() {
        return height;
    }

    /** Left edge of a place on the page, from the page's left, mm. Places count from 0, along the rows. */
    float left(int place) {
        float all = columns * width + (columns - 1) * gap;
        return (pageWidth - all) / 2 + place % columns * (width + gap);
    }

    /** Lower edge of a place on the page, from the page's foot, mm. */
    float foot(int place) {
        return pageHeight - top - (place / columns + 1) * height;
    }
}
