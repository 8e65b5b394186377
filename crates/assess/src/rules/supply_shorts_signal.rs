//! `supply-shorts-signal`

use crate::rule::{Context, Report, finding, rule};
use crate::stage::WithSignal;
use latchline_finding::{CodeDoc, ElementId, Figure, Origin, Unit};
use latchline_network::signal_tree::MissingKind;

rule! {
    /// # What it checks
    /// In a family that states bands for its signals, the low corner of the feed chokes of all supplies and boxes that feed
    /// one network: with n equal chokes of L in parallel and the resistance R of source and receiver in parallel it is
    /// n R / (2 π L). It must lie below the lowest band. A feed without a choke (`feed_choke = "0 mH"`) has no corner: it shorts every
    /// signal.
    ///
    /// # Why it matters
    /// A supply is a capacitor for signals. Only its choke keeps it from swallowing them, and every further supply on
    /// the same pairs weakens the others' chokes.
    ///
    /// # Example
    /// Three feeds of 1 mH on a pair of 100 ohm at both ends cut off below 24 kHz; speech begins at 300 Hz.
    ///
    /// # What to do
    /// Take the family's own supply, or put a choke into its output; separate the parts of the building by isolating boxes.
    pub static SUPPLY_SHORTS_SIGNAL: "supply-shorts-signal", Error,
        "Feeds that short the signal", reads Signal, check
}

fn check(doc: &CodeDoc, context: &WithSignal<'_>, report: &mut Report) {
    let signal = &context.signal;
    for missing in &signal.missing {
        if missing.kind == MissingKind::Choke {
            report.not_judged(doc.code, missing.element.clone(), missing.missing.clone());
        }
    }
    for feed in &signal.feeds {
        let shorts = feed.corner_hz.is_none_or(|corner_hz| corner_hz > feed.lowest_hz);
        let Some(first) = feed.feeds.first().filter(|_| shorts) else { continue };
        let mut found = finding(doc, origin(context, first))
            .about(first.clone())
            .with("feeds", feed.feeds.clone())
            .with("count", feed.count)
            .with("lowest", Figure::new(feed.lowest_hz, Unit::Hertz))
            .graded(super::signal_too_weak::grade(context));
        if let Some(corner_hz) = feed.corner_hz {
            found = found.figures(corner_hz, feed.lowest_hz, Unit::Hertz);
        }
        report.push(found);
    }
}

fn origin(context: &Context<'_>, id: &ElementId) -> Origin {
    let supplies = context.site.supplies.iter().map(|supply| (&supply.id, &supply.origin));
    let boxes = context.site.boxes.iter().map(|item| (&item.id, &item.origin));
    supplies
        .chain(boxes)
        .find(|(known, _)| *known == id)
        .map(|(_, origin)| origin.clone())
        .unwrap_or_default()
}
