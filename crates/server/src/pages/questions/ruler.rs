//! Lengths to slide, in round steps of the reader's own unit. An address says which unit it is written in.

use super::fields::number;
use latchline_finding::{Figure, Locale, METRES_PER_FOOT, Unit, Units};
use latchline_words::office::Label;
use maud::{Markup, html};

/// A scale from nought in one unit: the least and the greatest that can be asked, the step of the slider, what is usual, and where the axis
/// of a chart is lettered.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Scale {
    pub least: f64,
    pub most: f64,
    pub step: f64,
    pub usual: f64,
    pub tick: f64,
}

/// A scale in the reader's unit.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Ruler {
    scale: Scale,
    unit_m: f64,
    locale: Locale,
}

impl Ruler {
    /// The one of two scales, in metres and in feet, that the reader is used to.
    pub fn new(metres: Scale, feet: Scale, locale: Locale) -> Self {
        match locale.units {
            Units::Metric => Ruler { scale: metres, unit_m: 1.0, locale },
            Units::Us => Ruler { scale: feet, unit_m: METRES_PER_FOOT, locale },
        }
    }

    /// The greatest length, in metres.
    pub fn most_m(&self) -> f64 {
        self.scale.most * self.unit_m
    }

    /// Where an axis is lettered, in metres.
    pub fn ticks_m(&self) -> Vec<f64> {
        let ticks = (self.scale.most / self.scale.tick).floor() as usize;
        (1..=ticks).map(|tick| tick as f64 * self.scale.tick * self.unit_m).collect()
    }

    /// A length of an address, in metres; `unit` says "ft" where it is written in feet, else it is in metres.
    pub fn asked_m(&self, text: &str, unit: &str) -> f64 {
        let written_m = if unit == "ft" { METRES_PER_FOOT } else { 1.0 };
        let usual = self.scale.usual * self.unit_m / written_m;
        number(text, usual, self.scale.least * self.unit_m / written_m, self.most_m() / written_m) * written_m
    }

    /// A length in the reader's unit.
    pub fn words(&self, length_m: f64) -> String {
        let (value, decimals, symbol) = self.locale.scaled(Figure::new(length_m, Unit::Metre));
        format!("{} {symbol}", self.locale.trimmed(value, usize::from(decimals)))
    }

    /// The slider.
    pub fn slider(&self, id: &str, label: Label, length_m: f64) -> Markup {
        let Scale { least, most, step, .. } = self.scale;
        let value = (length_m / self.unit_m * 100.0).round() / 100.0;
        // A step that does not hold the value would move it.
        let step = if (value / step).fract() == 0.0 { step.to_string() } else { String::from("any") };
        html! {
            div.field.slider {
                label for=(id) { (label.say(self.locale.language)) }
                output for=(id) data-symbol=(self.locale.symbol(Unit::Metre)) { (self.words(length_m)) }
                input type="range" id=(id) name=(id) min=(least) max=(most) step=(step) value=(value);
            }
        }
    }

    /// Says in the address which unit the form is written in.
    pub fn unit_field(&self) -> Markup {
        html! { input type="hidden" name="in" value=(self.locale.symbol(Unit::Metre)); }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_finding::Language;

    const METRES: Scale = Scale { least: 1.0, most: 200.0, step: 1.0, usual: 60.0, tick: 50.0 };
    const FEET: Scale = Scale { least: 5.0, most: 700.0, step: 5.0, usual: 200.0, tick: 100.0 };

    fn ruler(units: Units) -> Ruler {
        Ruler::new(METRES, FEET, Locale { language: Language::English, units })
    }

    #[test]
    fn lengths_are_round_in_the_readers_unit() {
        assert_eq!(ruler(Units::Us).words(ruler(Units::Us).asked_m("", "ft")), "200 ft");
        assert_eq!(ruler(Units::Metric).words(ruler(Units::Metric).asked_m("", "m")), "60 m");
        let ticks: Vec<String> =
            ruler(Units::Us).ticks_m().into_iter().map(|tick| ruler(Units::Us).words(tick)).collect();
        assert_eq!(ticks, ["100 ft", "200 ft", "300 ft", "400 ft", "500 ft", "600 ft", "700 ft"]);
    }

    #[test]
    fn a_link_means_the_same_length_to_readers_of_both_units() {
        // NIST Special Publication 811, appendix B.8: 1 ft = 0.3048 m; from memory.
        for units in [Units::Metric, Units::Us] {
            assert!((ruler(units).asked_m("100", "ft") - 30.48).abs() < 1e-9);
            assert!((ruler(units).asked_m("100", "m") - 100.0).abs() < 1e-9);
            assert!((ruler(units).asked_m("100", "") - 100.0).abs() < 1e-9);
        }
    }
}
