//! What a revision changed, in figures against the one before.

use crate::work::State;
use latchline_assess::DeviceResult;
use latchline_finding::Locale;
use latchline_words::figures;
use latchline_words::office::Label;
use maud::{Markup, html};
use std::collections::BTreeMap;

/// Changes that are shown; the greatest first.
const MOST: usize = 8;

/// A device whose worst voltage, as printed, is another than before: name, before, now, difference of the margins.
pub(crate) struct Differing {
    pub name: String,
    pub before: Option<f64>,
    pub now: Option<f64>,
    pub by: f64,
}

/// What differs, the greatest difference first.
pub(crate) fn differing(state: &State) -> Vec<Differing> {
    let (Some(before), Some(now)) =
        (state.before.as_ref().and_then(|before| before.results.as_ref()), &state.results)
    else {
        return Vec::new();
    };
    let old: BTreeMap<&str, &DeviceResult> =
        before.devices.iter().map(|device| (device.id.as_str(), device)).collect();
    let shown = |voltage: Option<f64>| voltage.map(|v| figures::rounded_down(v, 2));
    let mut all: Vec<Differing> = now
        .devices
        .iter()
        .filter_map(|device| {
            let was = old.get(device.id.as_str())?;
            let (before, now) = (was.worst.adverse_v, device.worst.adverse_v);
            (shown(before) != shown(now)).then(|| Differing {
                name: device.id.to_string(),
                before,
                now,
                by: now.unwrap_or(0.0) - before.unwrap_or(0.0),
            })
        })
        .collect();
    all.sort_by(|a, b| b.by.abs().total_cmp(&a.by.abs()).then_with(|| a.name.cmp(&b.name)));
    all
}

/// The list.
pub(crate) fn changed(state: &State, all: &[Differing], locale: Locale) -> Markup {
    let language = locale.language;
    let Some(before) = &state.before else { return html! {} };
    let volts =
        |voltage: Option<f64>| voltage.map_or_else(|| String::from("–"), |v| figures::volts(v, language));
    html! {
        h2 { (Label::WhatChanged.say(language)) }
        p.quiet { (before.number) " → " (state.number) @if !state.note.is_empty() { ": " (state.note) } }
        @if all.is_empty() { p.quiet { (Label::NothingChanged.say(language)) } }
        @else {
            table.figures {
                tbody {
                    @for one in all.iter().take(MOST) {
                        tr class=(if one.by < 0.0 { "worse" } else { "better" }) {
                            th scope="row" { button.link type="button" data-pick=(one.name) { (one.name) } }
                            td.number { (volts(one.before)) " → " strong { (volts(one.now)) " V" } }
                        }
                    }
                }
            }
        }
    }
}
