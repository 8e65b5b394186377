//! The chart of all cables.

use super::of_cable::{OfCable, trimmed};
use latchline_drawing::{ReachChart, ReachCurve};
use latchline_finding::Language;
use latchline_reach::{MOST_STATIONS, Question};
use latchline_words::commands::ReachWords;

/// Spacings of a chart: from the least to the greatest that was asked for, evenly.
pub(super) fn chart_spacings(asked: &[f64]) -> Vec<f64> {
    const STEPS: u32 = 34;
    let least = asked.iter().copied().fold(f64::INFINITY, f64::min);
    let greatest = asked.iter().copied().fold(0.0, f64::max);
    let step = (greatest - least) / f64::from(STEPS);
    (0..=STEPS).map(|number| least + step * f64::from(number)).collect()
}

/// The chart of all cables; those with one curve share it, and a note says so.
pub(super) fn chart(
    question: &Question,
    calls: usize,
    answers: &[OfCable],
    feeder_m: f64,
    language: Language,
) -> ReachChart {
    let say = |words: ReachWords<'_>| words.say(language);
    let mut curves: Vec<(ReachCurve, Vec<&str>)> = Vec::new();
    for answer in answers {
        // Between two spacings what holds at the greater one is drawn.
        let steps = answer.cells.iter().zip(answer.cells.iter().skip(1));
        let mut points: Vec<(f64, f64)> =
            answer.cells.first().map(|cell| (cell.spacing_m, cell.stations as f64)).into_iter().collect();
        for (before, cell) in steps.filter(|(before, cell)| before.stations != cell.stations) {
            points.push((before.spacing_m, before.stations as f64));
            points.push((before.spacing_m, cell.stations as f64));
        }
        points.extend(answer.cells.last().map(|cell| (cell.spacing_m, cell.stations as f64)));
        match curves.iter_mut().find(|(curve, _)| curve.points == points) {
            Some((_, also)) => also.push(&answer.cable),
            None => curves.push((ReachCurve { name: answer.cable.clone(), points }, Vec::new())),
        }
    }
    let shared = curves.iter().filter(|(_, also)| !also.is_empty());
    let mut notes: Vec<String> = shared
        .map(|(curve, also)| say(ReachWords::ChartShared { cable: &curve.name, others: &also.join(", ") }))
        .collect();
    let most = say(ReachWords::AtMostWere { most: MOST_STATIONS });
    notes.push(format!("{most} {}", say(ReachWords::Judged)));
    notes.push(say(ReachWords::ChartCaution));
    ReachChart {
        title: say(ReachWords::ChartTitle { family: &question.family, station: &question.station }),
        subtitle: say(ReachWords::ChartSubtitle {
            distributor: &question.distributor,
            supply: &question.supply,
            feeder: &trimmed(feeder_m, language),
            calls,
        }),
        x_title: say(ReachWords::ChartSpacing),
        y_title: say(ReachWords::ChartStations),
        curves: curves.into_iter().map(|(curve, _)| curve).collect(),
        notes,
        revision: None,
        date: None,
        locale: language.into(),
    }
}
