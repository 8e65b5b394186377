//! `supply-shorts-signal`

use crate::rule::{Context, Judgement, finding, rule};
use crate::stage::WithSignal;
use latchline_finding::{CodeDoc, ElementId, Figure, Origin, Unit};
use latchline_network::signal_tree::MissingKind;

rule! {
    pub static SUPPLY_SHORTS_SIGNAL: "supply-shorts-signal", Error, reads Signal, check
}

fn check(doc: &CodeDoc, context: &WithSignal<'_>, report: &mut Judgement) {
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
