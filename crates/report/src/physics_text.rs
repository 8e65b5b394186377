//! Power return, short circuit, tolerance and signal in the person's output: a line or two each.

use crate::paint::Look;
use crate::table::paragraph;
use crate::{figures, template};
use latchline_assess::Assessment;
use latchline_assess::physics_summary::{
    PowerReturnOutcome, ShortCircuitSummary, SignalSummary, StartUpSummary, ToleranceSummary,
};
use latchline_finding::{ElementId, Figure, Unit};
use latchline_words::figures::{start_s, start_time};
use latchline_words::report::{BandWords, Head, PowerReturn, ShortCircuit, Tolerance};
use latchline_words::states;

/// The lines of one supply; `briefly` without short circuits and starts that are as they should be: what is wrong is told as a finding.
pub(crate) fn of_source(assessment: &Assessment, source: &ElementId, briefly: bool, look: &Look) -> String {
    let mut lines = Vec::new();
    lines.extend(
        assessment
            .start_up
            .iter()
            .filter(|one| {
                one.source == *source
                    && !(briefly
                        && matches!(one.outcome, PowerReturnOutcome::Runs | PowerReturnOutcome::Hiccups))
            })
            .map(|one| PowerReturn::Line { what: &power_return(one, look) }.say(look.language)),
    );
    let shorts: Vec<&ShortCircuitSummary> =
        assessment.short_circuit.iter().filter(|one| one.source == *source).collect();
    if !shorts.is_empty() && !briefly {
        lines.push(short_circuit(&shorts, look));
    }
    let sampled = assessment.tolerance.iter().filter(|one| one.source == *source);
    lines.extend(sampled.map(|one| tolerance(one, look)));
    lines.iter().map(|line| paragraph(line, 2, look.width)).collect()
}

/// What happens when power returns, as the end of a sentence.
pub(crate) fn power_return(summary: &StartUpSummary, look: &Look) -> String {
    let devices = summary.devices;
    let down = summary.not_running.len();
    let dropouts = (summary.dropouts > 0).then_some(summary.dropouts);
    let trips = (summary.trips > 0).then_some(summary.trips);
    let words = match (summary.outcome, summary.time_s) {
        (PowerReturnOutcome::Runs, Some(time_s))
            if start_s(time_s) == 0.0 && dropouts.is_none() && trips.is_none() =>
        {
            PowerReturn::UpAtOnce { devices }
        }
        (PowerReturnOutcome::Runs, Some(time_s)) => {
            let last = summary.last.as_ref().map(|last| template::plain(last.as_str()));
            let time = &start_time(time_s, look.language);
            return PowerReturn::AllUp { devices, time, last: last.as_deref(), dropouts, trips }
                .say(look.language);
        }
        (PowerReturnOutcome::Hiccups, _) => {
            let period = summary.period_s.map(|period_s| look.figure(Figure::new(period_s, Unit::Second)));
            return PowerReturn::Hiccups { period: period.as_deref(), down, devices }.say(look.language);
        }
        (PowerReturnOutcome::NotJudged, _) => PowerReturn::NotJudged { devices },
        (PowerReturnOutcome::BrownOut, _) => PowerReturn::BrownOut { down, devices },
        _ => PowerReturn::Undecided { down, devices },
    };
    words.say(look.language)
}

fn short_circuit(shorts: &[&ShortCircuitSummary], look: &Look) -> String {
    let least_a = shorts.iter().map(|short| short.fault_a).fold(f64::INFINITY, f64::min);
    let most_a = shorts.iter().map(|short| short.fault_a).fold(0.0, f64::max);
    let count = |acts: &str| shorts.iter().filter(|short| short.acts == acts).count();
    let parts = [
        ShortCircuit::Trips { runs: count("trips") },
        ShortCircuit::Limits { runs: count("limits") },
        ShortCircuit::Nothing { runs: count("nothing") },
    ];
    let parts = parts.iter().filter(|part| match part {
        ShortCircuit::Trips { runs } | ShortCircuit::Limits { runs } | ShortCircuit::Nothing { runs } => {
            *runs > 0
        }
        _ => false,
    });
    let acts: Vec<String> = parts.map(|part| part.say(look.language)).collect();
    let widest = shorts.iter().max_by_key(|short| short.also_dark.len());
    let dark = widest.filter(|short| !short.also_dark.is_empty()).map(|widest| {
        let run = &template::plain(widest.run.as_str());
        ShortCircuit::Dark { dwellings: widest.also_dark.len(), run }.say(look.language)
    });
    if let [one] = shorts {
        let current = &figures::short_circuit_amperes(one.fault_a, look.language);
        return ShortCircuit::OneRun { current, acts: &acts.join(", "), dark: dark.as_deref() }
            .say(look.language);
    }
    let [least, most] =
        [least_a, most_a].map(|current_a| figures::short_circuit_amperes(current_a, look.language));
    let (acts, dark) = (&acts.join(", "), dark.as_deref());
    let line = match least == most {
        true => ShortCircuit::AllAlike { current: &most, acts, dark },
        false => ShortCircuit::Line { least: &least, most: &most, acts, dark },
    };
    line.say(look.language)
}

fn tolerance(summary: &ToleranceSummary, look: &Look) -> String {
    let percent = |share: f64| look.decimals(figures::trimmed(100.0 * share, 2));
    let most: Vec<String> = summary
        .shares
        .iter()
        .take(3)
        .filter(|(_, share)| *share >= 0.01)
        .map(|(factor, share)| {
            format!("{} {} %", template::plain(&factor.say(look.language)), figures::fixed(100.0 * share, 0))
        })
        .collect();
    let spread = (!most.is_empty()).then(|| most.join(", "));
    let line = Tolerance::Line {
        device: &template::plain(summary.device.as_str()),
        limit: &look.figure(Figure::new(summary.limit_v, Unit::Volt)),
        below: summary.below,
        samples: summary.samples,
        least: &percent(summary.interval.0),
        most: &percent(summary.interval.1),
        state: &states::few_words(&summary.state, look.language),
        spread: spread.as_deref(),
    };
    line.say(look.language)
}

/// The block of the family's bands; empty where there are none.
pub(crate) fn signal(assessment: &Assessment, look: &Look) -> String {
    if assessment.signal.is_empty() {
        return String::new();
    }
    let lines: String =
        assessment.signal.iter().map(|one| paragraph(&band(one, look), 2, look.width)).collect();
    format!("{}\n{lines}", look.bold(Head::Signal.say(look.language)))
}

fn band(summary: &SignalSummary, look: &Look) -> String {
    let hertz = |value: f64| look.figure(Figure::new(value, Unit::Hertz));
    let up = |value: f64| figures::decibels(value, look.language);
    let worst = &summary.worst;
    let ripple = summary.allowed_ripple_db.map(|allowed_db| {
        let ripple = BandWords::Ripple {
            ripple: &up(summary.greatest_ripple.1),
            allowed: &look.decimals(figures::trimmed(allowed_db, 1)),
            station: &template::plain(summary.greatest_ripple.0.as_str()),
        };
        ripple.say(look.language)
    });
    let incomplete = (!summary.complete).then(|| BandWords::Incomplete.say(look.language));
    let line = BandWords::Line {
        band: &template::plain(latchline_words::band(&summary.band, look.language)),
        low: &hertz(summary.low_hz),
        high: &hertz(summary.high_hz),
        station: &template::plain(worst.station.as_str()),
        caller: &template::plain(worst.caller.as_str()),
        loss: &up(worst.loss_db),
        budget: &look.decimals(figures::trimmed(summary.budget_db, 1)),
        at: &hertz(worst.at_hz),
        lengths: worst.lengths.term().say(look.language),
        ripple: ripple.as_deref(),
        incomplete: incomplete.as_deref(),
    };
    line.say(look.language)
}
