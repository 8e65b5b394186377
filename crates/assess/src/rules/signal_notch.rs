//! `signal-notch`

use super::signal_too_weak::grade;
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithSignal;
use latchline_finding::{CodeDoc, Figure, Unit};
use latchline_network::Device;
use latchline_network::signal_tree::{Notch, pair_constants};

rule! {
    pub static SIGNAL_NOTCH: "signal-notch", Error, reads Signal, check
}

fn check(doc: &CodeDoc, context: &WithSignal<'_>, report: &mut Judgement) {
    for survey in &context.signal.bands {
        let band = &context.site.family().signal_bands[survey.band];
        let Some(ripple) = &band.ripple else { continue };
        let limit_db = ripple.value.as_decibels();
        for station in &survey.stations {
            let Some(notch) = notch_beyond(station.ripple.notch, limit_db) else { continue };
            let device = Device::Station(station.station);
            let mut found = finding(doc, context.wiring_origin(device))
                .about(context.device_id(device).clone())
                .figures(notch.depth_db, limit_db, Unit::Decibel)
                .with("caller", &context.site.stations[station.ripple.caller].id)
                .with("band", band.name.as_str())
                .with("lengths", station.ripple.lengths.term().both())
                .with("frequency", Figure::new(notch.frequency_hz, Unit::Hertz))
                .also_at("limit", ripple.origin.clone())
                .graded(grade(context));
            let run = context.layout.station[station.station].and_then(|at| context.run_to(at));
            let pair = run.and_then(|run| pair_constants(context.site.cable(&context.site.runs[run])));
            if let Some(pair) = pair {
                let delay_s_per_m = (pair.l_h_per_m * pair.c_f_per_m).sqrt();
                let quarter_m = 1.0 / (4.0 * notch.frequency_hz * delay_s_per_m);
                found = found.with("branch", Figure::new(quarter_m, Unit::Metre));
            }
            report.push(found);
        }
    }
}

/// The notch, if it is deeper than the family's ripple.
pub(super) fn notch_beyond(notch: Option<Notch>, limit_db: f64) -> Option<Notch> {
    notch.filter(|notch| notch.depth_db > limit_db)
}
