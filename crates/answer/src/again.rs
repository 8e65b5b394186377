//! A question that is asked again with one reading more.

use crate::reader::Reader;
use latchline_finding::{Figure, Unit};
use latchline_locate::{NextReading, Plant, Quantity, written};
use latchline_words::figures;
use latchline_words::locate::Answer;
use std::path::Path;

/// The command as it was given.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// The site file.
    pub site_file: &'a Path,
    /// Readings and files of them.
    pub given: &'a [String],
}

impl Asked<'_> {
    /// With one item more.
    pub(crate) fn with(&self, item: &str) -> String {
        let items = self.given.iter().map(String::as_str).chain([item]);
        let items: Vec<String> = items.map(latchline_finding::shown::for_shell).collect();
        let site = latchline_finding::shown::for_shell(&self.site_file.to_string_lossy());
        format!("latchline locate {site} {}", items.join(" "))
    }
}

/// The question as it was asked, to be asked again with one reading more.
pub struct Again<'a> {
    /// The site.
    pub plant: &'a Plant<'a>,
    /// The command; `None` on a page, where a reading is typed into its box.
    pub asked: Option<Asked<'a>>,
    /// The reading that was told to be taken first.
    pub first_read: Option<&'a Quantity>,
}

impl Again<'_> {
    /// The command with the proposed reading, its figure that of the likeliest outcome.
    pub(crate) fn with(&self, reader: &Reader<'_>, next: &NextReading) -> Option<String> {
        let likeliest = next.meanings.iter().max_by(|a, b| a.probability.total_cmp(&b.probability));
        let value = likeliest.map_or(0.0, |meaning| meaning.middle);
        let figure = typed(reader.figure(&next.quantity, value));
        let item = format!("{}={figure}", written(self.plant, &next.quantity));
        let command = self.asked?.with(&item);
        Some(Answer::ThenGive { command: &command }.say(reader.language))
    }
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
