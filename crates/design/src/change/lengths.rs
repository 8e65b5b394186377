//! Lengths that the survey gives otherwise than the site.

use super::installed::{Installed, Stop};
use super::ways::Way;
use crate::instance::Instance;
use latchline_finding::{Both, Language};
use latchline_words::design::StepWords;
use latchline_words::figures;

/// Lengths in metres that differ by less are the same, rounded otherwise.
const SAME_M: f64 = 0.0501;

/// Corrects the lengths of every run whose way the survey knows, and gives the changes of the text. Cables that were
/// in the walls keep what was measured of them.
pub fn corrections(instance: &Instance<'_>, installed: &mut Installed) -> Vec<Way> {
    let mut ways = Vec::new();
    for at in 0..installed.runs.len() {
        let run = &installed.runs[at];
        if run.existing
            || run.stops.iter().any(|stop| matches!(stop, Stop::Other(name) if !name.contains(':')))
        {
            continue;
        }
        let Some(sections) = run.surveyed(instance, installed) else { continue };
        let surveyed_m: Vec<f64> =
            sections.lengths_dm.iter().map(|length| f64::from(*length) / 10.0).collect();
        let differs = |(old, new): (&f64, &f64)| (old - new).abs() > SAME_M;
        if !run.lengths_m.iter().zip(&surveyed_m).any(differs) {
            continue;
        }
        let sum = |lengths: &[f64]| lengths.iter().sum::<f64>();
        let shown = |lengths: &[f64]| {
            let metres = figures::fixed(sum(lengths), 1);
            Both::new(metres.clone(), figures::decimals(metres, Language::German))
        };
        let (surveyed, stated) = (&shown(&surveyed_m), &shown(&run.lengths_m));
        let words = StepWords::OtherLength { run: &run.name, surveyed, stated };
        let mut way = Way::new(words.both(), 0);
        way.lengths(&run.name.clone(), &surveyed_m);
        installed.runs[at].lengths_m = surveyed_m;
        ways.push(way);
    }
    ways
}
