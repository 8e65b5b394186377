//! `signal-too-weak`

use crate::rule::{Report, finding, rule};
use crate::stage::WithSignal;
use latchline_finding::{CodeDoc, DataGrade, Figure, Unit};
use latchline_network::Device;
use latchline_network::signal_tree::MissingKind;

rule! {
    /// # What it checks
    /// In a family that states bands for its signals, the greatest insertion loss in each band from every door and
    /// management station to every station that it can call, against the band's budget. The pair is computed as a tree
    /// of lossy lines with every box, feed choke, terminator, surge protector and waiting station on it, hot and at the upper
    /// tolerance of its resistance.
    ///
    /// # Why it matters
    /// Every voltage is right, and the picture is snow or the call is lost: too much cable, too many boxes one behind the
    /// other, or an open branch that swallows one frequency.
    ///
    /// # Example
    /// A-504 hears the gate with a loss of 48.2 dB at 8 MHz; the family bears 45 dB.
    ///
    /// # What to do
    /// Fewer boxes and branches on the way, a shorter way, a cable with less loss; a terminator on an open end
    /// where the family has one. Thicker conductors help the voltage more than the signal, a doubled pair hurts it.
    pub static SIGNAL_TOO_WEAK: "signal-too-weak", Error,
        "More loss on the pair than the family's signal bears", reads Signal, check
}

fn check(doc: &CodeDoc, context: &WithSignal<'_>, report: &mut Report) {
    let signal = &context.signal;
    for missing in &signal.missing {
        if matches!(missing.kind, MissingKind::Part | MissingKind::Loop) {
            report.not_judged(doc.code, missing.element.clone(), missing.missing.clone());
        }
    }
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
                .with("frequency", Figure::new(station.at_hz, Unit::Hertz))
                .also_at("limit", band.budget.origin.clone())
                .graded(grade(context));
            if let Some(run) = context.layout.station[station.station].and_then(|at| context.run_to(at)) {
                found = found.with("run", &context.site.runs[run].id);
            }
            report.push(found);
        }
    }
}

/// The grade of what rests on line constants and signal values.
pub(super) fn grade(context: &WithSignal<'_>) -> DataGrade {
    let assumed = crate::physics::assumed_for_signal(context.site, context.signal);
    if assumed.is_empty() { DataGrade::Known } else { DataGrade::Assumed(assumed) }
}
