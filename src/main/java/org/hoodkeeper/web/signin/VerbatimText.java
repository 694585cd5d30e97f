package org.hoodkeeper.web.signin;

import java.beans.PropertyEditorSupport;

/** A password is taken exactly as typed, blanks at its ends included. */
class VerbatimText extends PropertyEditorSupport {

    @Override
    public void setAsText(String text) {
        setValue(text);
    }
}
