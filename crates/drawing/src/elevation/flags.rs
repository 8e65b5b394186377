//! The flags at match lines: how much room they need.

use super::route::Net;
use super::run_labels::LABEL_MM;
use super::subject::Subject;
use latchline_scene::font::text_width_mm;

/// How far a line goes beyond a match line.
pub(super) const BEYOND_MM: f64 = 2.0;
/// Height of the strip for "match line, sheet n".
pub(super) const ABOVE_MM: f64 = 5.0;
/// No name of a zone is wider.
pub(super) const WIDEST_ZONE: &str = "H10";

/// The room that the flags of these sections need beyond a match line, whatever the sheets and zones where they go on.
pub(super) fn flags_mm(subject: &Subject<'_>, nets: &[&Net]) -> f64 {
    let flags = nets.iter().map(|net| {
        let once = nets.iter().filter(|other| other.run == net.run).count() == 1;
        let run = subject.flag_words(net.run, (!once).then_some(net.to.0));
        flag_mm(&format!("{run} → 99/{WIDEST_ZONE}"))
    });
    flags.fold(ABOVE_MM, f64::max)
}

/// The room of one flag with these words.
pub(super) fn flag_mm(words: &str) -> f64 {
    text_width_mm(words, LABEL_MM, true) + BEYOND_MM + 1.5
}
