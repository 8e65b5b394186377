//! `signal-too-weak`

use crate::grade;
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithSignal;
use latchline_finding::{CodeDoc, DataGrade, Figure, Unit};
use latchline_network::Device;
use latchline_network::signal_tree::MissingKind;
use std::cell::LazyCell;

rule! {
    pub static SIGNAL_TOO_WEAK: "signal-too-weak", Error, reads Signal, check
}

fn check(doc: &CodeDoc, context: &WithSignal<'_>, report: &mut Judgement) {
    let signal = &context.signal;
    for missing in &signal.missing {
        if matches!(missing.kind, MissingKind::Part | MissingKind::Loop) {
            report.not_judged(doc.code, missing.element.clone(), missing.missing.clone());
        }
    }
    // The same for every station, and as long to collect as the site is large.
    let rests_on = LazyCell::new(|| grade(context));
    for survey in &signal.bands {
        let band = &context.site.family().signal_bands[survey.band];
        let budget_db = band.budget.value.as_decibels();
        for station in survey.stations.iter().filter(|station| station.loss_db > budget_db) {
            let device = Device::Station(station.station);
            let mut found = finding(doc, context.wiring_origin(device))
                .about(context.device_id(device).clone())
                .figures(station.loss_db, budget_db, Unit::Decibel)
                .with("caller", &context.site.stations[station.caller].id)
                .with("band", band.name.as_str())
                .with("lengths", station.lengths.term().both())
                .with("frequency", Figure::new(station.at_hz, Unit::Hertz))
                .also_at("limit", band.budget.origin.clone())
                .graded(rests_on.clone());
            if let Some(run) = context.layout.station[station.station].and_then(|at| context.run_to(at)) {
                found = found.with("run", &context.site.runs[run].id);
            }
            report.push(found);
        }
    }
}

/// The grade of what rests on line constants and signal values.
pub(super) fn grade(context: &WithSignal<'_>) -> DataGrade {
    grade::of_values(grade::for_signal(context.site, context.signal))
}
