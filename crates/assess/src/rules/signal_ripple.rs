//! `signal-ripple`

use super::signal_notch::notch_beyond;
use super::signal_too_weak::grade;
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithSignal;
use latchline_finding::{CodeDoc, Unit};
use latchline_network::Device;

rule! {
    pub static SIGNAL_RIPPLE: "signal-ripple", Error, reads Signal, check
}

fn check(doc: &CodeDoc, context: &WithSignal<'_>, report: &mut Judgement) {
    for survey in &context.signal.bands {
        let band = &context.site.family().signal_bands[survey.band];
        let Some(ripple) = &band.ripple else { continue };
        let limit_db = ripple.value.as_decibels();
        for station in &survey.stations {
            let is_notch = notch_beyond(station.ripple.notch, limit_db).is_some();
            if is_notch || station.ripple.ripple_db <= limit_db {
                continue;
            }
            let device = Device::Station(station.station);
            let found = finding(doc, context.wiring_origin(device))
                .about(context.device_id(device).clone())
                .figures(station.ripple.ripple_db, limit_db, Unit::Decibel)
                .with("caller", &context.site.stations[station.ripple.caller].id)
                .with("band", band.name.as_str())
                .with("lengths", station.ripple.lengths.term().both())
                .also_at("limit", ripple.origin.clone())
                .graded(grade(context));
            report.push(found);
        }
    }
}
