//! A question that is asked again with one reading more.

use super::reader::Reader;
use latchline_finding::{Figure, Unit};
use latchline_locate::{NextReading, Plant, Quantity, written};
use latchline_words::figures;
use latchline_words::locate::Answer;
use std::path::Path;

/// The question as it was asked, to be asked again with one reading more.
pub(super) struct Again<'a> {
    pub plant: &'a Plant<'a>,
    pub site_file: &'a Path,
    pub given: &'a [String],
    /// The reading that was told to be taken first.
    pub first_read: Option<&'a Quantity>,
}

impl Again<'_> {
    /// The command with the proposed reading, its figure that of the likeliest outcome.
    pub fn with(&self, reader: &Reader<'_>, next: &NextReading) -> String {
        let likeliest = next.meanings.iter().max_by(|a, b| a.probability.total_cmp(&b.probability));
        let value = likeliest.map_or(0.0, |meaning| meaning.middle);
        let figure = typed(reader.figure(&next.quantity, value));
        let item = format!("{}={figure}", written(self.plant, &next.quantity));
        let command = asked_again(self.site_file, self.given, &item);
        Answer::ThenGive { command: &command }.say(reader.language)
    }
}

/// The command as it was given, with one item more.
pub(super) fn asked_again(site_file: &Path, given: &[String], item: &str) -> String {
    let items: Vec<String> =
        given.iter().map(String::as_str).chain([item]).map(latchline_finding::shown::for_shell).collect();
    let site = latchline_finding::shown::for_shell(&site_file.to_string_lossy());
    format!("latchline locate {site} {}", items.join(" "))
}

/// A figure as it is typed.
fn typed(figure: Figure) -> String {
    let (times, unit) = match (figure.unit, figure.value.abs()) {
        (Unit::Ampere, value) if value < 1.0 => (1e3, "mA"),
        (Unit::Ampere, _) => (1.0, "A"),
        (Unit::Ohm, value) if value >= 1e6 => (1e-6, "Mohm"),
        (Unit::Ohm, value) if value >= 1e3 => (1e-3, "kohm"),
        (Unit::Ohm, _) => (1.0, "ohm"),
        (Unit::Farad, _) => (1e9, "nF"),
        _ => (1.0, "V"),
    };
    format!("{}{unit}", figures::trimmed(figure.value * times, 3))
}
