package org.hoodkeeper.web.store;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.calculation.life.KaplanMeier;
import org.hoodkeeper.calculation.life.WeibullLife;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.store.PartLives;
import org.hoodkeeper.web.PlaceWords;
import org.hoodkeeper.web.Words;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** How long the parts of a place last, and whether to change them by age. */
@Controller
class LifeController {

    private final Desk desk;
    private final PartLives lives;
    private final LifePicture picture;
    private final Words words;
    private final PlaceWords places;

    LifeController(Desk desk, PartLives lives, LifePicture picture, Words words, PlaceWords places) {
        this.desk = desk;
        this.lives = lives;
        this.picture = picture;
        this.words = words;
        this.places = places;
    }

    /** @param good share still good, per cent, rounded down */
    public record Step(String length, int atRisk, int failed, BigDecimal good) {}

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/parts/life")
    String show(Visit visit, @ModelAttribute("asked") LifeForm asked, Model page) {
        SiteId site = visit.viewer().site();
        String place = LifeForm.given(asked.place());
        page.addAttribute("places", places.choices(lives.places(site, desk.now())));
        page.addAttribute("unit", asked.counted());
        PartLives.Lived lived = place == null
                ? null
                : lives.of(
                        site,
                        place,
                        LifeForm.given(asked.part()),
                        LifeForm.given(asked.lot()),
                        asked.counted(),
                        desk.now());
        page.addAttribute("lived", lived);
        if (lived != null && place != null) {
            String sentence = sentence(place, lived, asked.counted());
            page.addAttribute("sentence", sentence);
            page.addAttribute(
                    "shape", lived.fit() == null ? null : tenths(lived.fit().shape(), 2, RoundingMode.HALF_UP));
            page.addAttribute(
                    "scale", lived.fit() == null ? null : tenths(lived.fit().scale(), 1, RoundingMode.HALF_UP));
            page.addAttribute("b10", lived.fit() == null ? null : b10(lived.fit()));
            page.addAttribute(
                    "steps",
                    lived.survival().steps().stream().map(LifeController::step).toList());
            page.addAttribute("plot", picture.of(lived, asked.counted(), sentence));
        }
        return "store/life";
    }

    private String sentence(String place, PartLives.Lived lived, PartLives.Unit unit) {
        return words.say(
                "life.answer." + lived.advice(),
                places.of(place),
                lived.fit() == null ? null : length(b10(lived.fit()), unit));
    }

    private String length(BigDecimal length, PartLives.Unit unit) {
        return words.say("life.length." + unit, length);
    }

    /** Rounded down: the part comes out before. */
    private static BigDecimal b10(WeibullLife fit) {
        return tenths(fit.b(10), 1, RoundingMode.FLOOR);
    }

    private static BigDecimal tenths(double value, int digits, RoundingMode rounding) {
        return BigDecimal.valueOf(value).setScale(digits, rounding);
    }

    private static Step step(KaplanMeier.Step step) {
        return new Step(
                BigDecimal.valueOf(step.length())
                        .setScale(1, RoundingMode.HALF_UP)
                        .stripTrailingZeros()
                        .toPlainString(),
                step.atRisk(),
                step.failed(),
                tenths(step.survival() * 100, 0, RoundingMode.FLOOR));
    }
}
