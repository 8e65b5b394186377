//! Power return, short circuit, tolerance and signal in the person's output: a line or two each.

use crate::paint::Look;
use crate::table::paragraph;
use crate::{figures, state_words, template};
use latchline_assess::Assessment;
use latchline_assess::physics_summary::{
    ShortCircuitSummary, SignalSummary, StartUpSummary, ToleranceSummary,
};
use latchline_finding::{ElementId, Figure, Unit};

/// The lines of one supply.
pub(crate) fn of_source(assessment: &Assessment, source: &ElementId, look: &Look) -> String {
    let mut lines = Vec::new();
    lines.extend(
        assessment
            .start_up
            .iter()
            .filter(|one| one.source == *source)
            .map(|one| format!("Power return: {}.", power_return(one))),
    );
    let shorts: Vec<&ShortCircuitSummary> =
        assessment.short_circuit.iter().filter(|one| one.source == *source).collect();
    if !shorts.is_empty() {
        lines.push(short_circuit(&shorts));
    }
    lines.extend(assessment.tolerance.iter().filter(|one| one.source == *source).map(tolerance));
    lines.iter().map(|line| paragraph(line, 2, look.width)).collect()
}

/// What happens when power returns, as the end of a sentence.
pub(crate) fn power_return(summary: &StartUpSummary) -> String {
    let plain = |id: &ElementId| template::plain(id.as_str());
    let count = summary.devices;
    let down = summary.not_running.len();
    match (summary.outcome, summary.time_s) {
        ("runs", Some(time_s)) => {
            let last =
                summary.last.as_ref().map_or_else(String::new, |last| format!(", {} last", plain(last)));
            format!("all {count} devices are up after {} s{last}", figures::rounded_up(time_s, 1))
        }
        ("hiccups", _) => {
            let period = summary.period_s.map_or_else(String::new, |period_s| {
                format!(" every {}", figures::sentence(Figure::new(period_s, Unit::Second)))
            });
            format!("drops out again and again{period}; {down} of {count} devices are down")
        }
        ("brown-out", _) => format!("{down} of {count} devices never come up"),
        _ => format!("not at rest in the time that is simulated; {down} of {count} devices are down"),
    }
}

fn short_circuit(shorts: &[&ShortCircuitSummary]) -> String {
    let least = shorts.iter().map(|short| short.fault_a).fold(f64::INFINITY, f64::min);
    let most = shorts.iter().map(|short| short.fault_a).fold(0.0, f64::max);
    let count = |acts: &str| shorts.iter().filter(|short| short.acts == acts).count();
    let mut parts = Vec::new();
    for (acts, words) in [("trips", "trips"), ("limits", "only limited"), ("nothing", "nothing acts")] {
        match count(acts) {
            0 => {}
            runs => parts.push(format!("{words} on {runs} run{}", if runs == 1 { "" } else { "s" })),
        }
    }
    let mut line = format!(
        "Short at the end of a run: {} to {} A, {}",
        figures::rounded_down(least, 2),
        figures::rounded_up(most, 2),
        parts.join(", ")
    );
    let widest = shorts.iter().max_by_key(|short| short.also_dark.len());
    if let Some(widest) = widest.filter(|short| !short.also_dark.is_empty()) {
        let dwellings = widest.also_dark.len();
        line.push_str(&format!(
            "; up to {dwellings} other dwelling{} dark ({})",
            if dwellings == 1 { "" } else { "s" },
            template::plain(widest.run.as_str())
        ));
    }
    line.push('.');
    line
}

fn tolerance(summary: &ToleranceSummary) -> String {
    let percent = |share: f64| figures::trimmed(100.0 * share, 2);
    let mut line = format!(
        "Tolerance: {} is below {} in {} of {} samples, {} to {} % at 95 % confidence, {}",
        template::plain(summary.device.as_str()),
        figures::sentence(Figure::new(summary.limit_v, Unit::Volt)),
        summary.below,
        summary.samples,
        percent(summary.interval.0),
        percent(summary.interval.1),
        state_words::few_words(&summary.state),
    );
    let most: Vec<String> = summary
        .shares
        .iter()
        .take(3)
        .filter(|(_, share)| *share >= 0.01)
        .map(|(factor, share)| format!("{} {} %", template::plain(factor), figures::fixed(100.0 * share, 0)))
        .collect();
    if !most.is_empty() {
        line.push_str(&format!("; spread from {}", most.join(", ")));
    }
    line.push('.');
    line
}

/// The block of the family's bands; empty where there are none.
pub(crate) fn signal(assessment: &Assessment, look: &Look) -> String {
    if assessment.signal.is_empty() {
        return String::new();
    }
    let lines: String = assessment.signal.iter().map(|one| paragraph(&band(one), 2, look.width)).collect();
    format!("{}\n{lines}", look.bold("Signal"))
}

fn band(summary: &SignalSummary) -> String {
    let hertz = |value: f64| figures::sentence(Figure::new(value, Unit::Hertz));
    let worst = &summary.worst;
    let mut line = format!(
        "{}, {} to {}: weakest is {} from {}, loss {} of {} dB at {}",
        template::plain(&summary.band),
        hertz(summary.low_hz),
        hertz(summary.high_hz),
        template::plain(worst.station.as_str()),
        template::plain(worst.caller.as_str()),
        figures::rounded_up(worst.loss_db, 1),
        figures::trimmed(summary.budget_db, 1),
        hertz(worst.at_hz),
    );
    if let Some(allowed_db) = summary.allowed_ripple_db {
        line.push_str(&format!(
            "; ripple up to {} of {} dB ({})",
            figures::rounded_up(summary.greatest_ripple.1, 1),
            figures::trimmed(allowed_db, 1),
            template::plain(summary.greatest_ripple.0.as_str())
        ));
    }
    if !summary.complete {
        line.push_str("; looked at too few frequencies to be sure of every dip");
    }
    line.push('.');
    line
}
