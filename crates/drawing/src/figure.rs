//! Numbers as they are lettered: roundings that never flatter.

use crate::language::Lettering;
use latchline_assess::conductor_size;
use latchline_finding::{Figure, METRES_PER_FOOT, Unit, Units};
use latchline_site::catalogue::Gauge;
use latchline_site::model::{Run, Site};
use latchline_words::figures;

impl Lettering {
    /// A voltage or margin rounded down to a tenth, so that what is shown is never better than what
    /// was computed.
    pub(crate) fn rounded_down(self, value: f64) -> String {
        figures::volts_briefly(value, self.0.language)
    }

    /// A current or load, rounded up.
    pub(crate) fn rounded_up(self, value: f64) -> String {
        figures::amperes(value, self.0.language)
    }

    /// A number with at most `decimals` decimals and no trailing zeros.
    pub(crate) fn trimmed(self, value: f64, decimals: usize) -> String {
        self.0.trimmed(value, decimals)
    }

    /// A length in the reader's unit.
    pub(crate) fn length(self, length_m: f64) -> String {
        let (value, symbol) = self.scaled_length(length_m);
        format!("{} {symbol}", self.trimmed(value, if value < 10.0 { 1 } else { 0 }))
    }

    /// A length as a number of the reader's unit, and that unit.
    pub(crate) fn scaled_length(self, length_m: f64) -> (f64, &'static str) {
        let (value, _, symbol) = self.0.scaled(Figure::new(length_m, Unit::Metre));
        (value, symbol)
    }

    /// The conductor of a run: "0.8 mm", "2 × 1.5 mm²"; in US units "2 × ≈ 15 AWG".
    pub(crate) fn conductor(self, site: &Site, run: &Run) -> String {
        let gauge = site.cable(run).gauge.value;
        let in_us = self.0.units == Units::Us;
        let size = match (gauge, conductor_size(gauge)) {
            (Gauge::CrossSection { .. } | Gauge::DiameterMm(_), Some(size)) if in_us => {
                format!("≈ {} AWG", size.nearest_awg)
            }
            (Gauge::CrossSection { area, .. }, _) => {
                let area = self.0.number(area.as_square_millimetres(), 2);
                format!("{} mm²", area.strip_suffix('0').unwrap_or(&area))
            }
            (Gauge::Awg(number), _) => format!("{number} AWG"),
            (Gauge::DiameterMm(diameter), _) => format!("{} mm", self.trimmed(diameter, 2)),
            (Gauge::Resistance(resistance), _) if in_us => {
                format!(
                    "{} ohm/1000 ft",
                    self.trimmed(resistance.as_ohms_per_metre() * 1000.0 * METRES_PER_FOOT, 1)
                )
            }
            (Gauge::Resistance(resistance), _) => {
                format!("{} ohm/km", self.trimmed(resistance.as_ohms_per_metre() * 1000.0, 1))
            }
        };
        match run.pairs.value {
            1 => size,
            pairs => format!("{pairs} × {size}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_finding::{Language, Locale};

    #[test]
    fn roundings_never_flatter() {
        let english = Lettering::default();
        let down = [41.29, -0.04, 41.2].map(|value| english.rounded_down(value));
        assert_eq!(down, ["41.2", "-0.1", "41.2"]);
        assert_eq!([english.rounded_up(1.231), english.rounded_up(1.23)], ["1.231", "1.230"]);
        assert_eq!([8.25, 42.4, 100.0].map(|metres| english.length(metres)), ["8.2 m", "42 m", "100 m"]);
    }

    /// The foot is 0.3048 m by definition.
    #[test]
    fn german_has_a_comma_and_america_feet() {
        let german = Lettering(Locale { language: Language::German, units: Units::Metric });
        assert_eq!([german.rounded_down(41.29), german.length(8.25)], ["41,2", "8,2 m"]);
        let american = Lettering(Locale { language: Language::English, units: Units::Us });
        assert_eq!([american.length(2.4384), american.length(30.48)], ["8 ft", "100 ft"]);
    }
}
