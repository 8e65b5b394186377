//! `start-up-dip`

use crate::physics_summary::terminal_id;
use crate::rule::{Report, finding, rule};
use crate::stage::WithStartUp;
use latchline_finding::{CodeDoc, StateKind, Unit};
use latchline_network::Terminal;
use latchline_network::start_up::StartUpOutcome;

rule! {
    /// # What it checks
    /// Where power return ends well, the lowest voltage at every station from when it had come up, while others
    /// were still booting, against its least standby voltage.
    ///
    /// # Why it matters
    /// A station that has come up and sees its voltage dip restarts, or comes up with a setting lost. It happens only after a
    /// power cut, and nobody is there to see it.
    ///
    /// # Example
    /// A-504 was up after 4 s and then saw 32.8 V when the door station started; it needs 34 V.
    ///
    /// # What to do
    /// Thicker conductors or fewer stations on the run; delays that differ from run to run.
    pub static START_UP_DIP: "start-up-dip", Warning,
        "The voltage dips at stations that had come up", reads StartUp, check
}

fn check(doc: &CodeDoc, context: &WithStartUp<'_>, report: &mut Report) {
    for start in &context.start_up.stages {
        if !matches!(start.outcome, StartUpOutcome::Runs { .. }) {
            continue;
        }
        for device in &start.devices {
            let (Terminal::Station(station), Some(lowest_v)) = (device.terminal, device.lowest_v) else {
                continue;
            };
            let model = context.site.station_model(&context.site.stations[station]);
            let limit_v = model.least_standby_voltage.value.as_volts();
            if lowest_v >= limit_v {
                continue;
            }
            let found = finding(doc, context.wiring_origin(latchline_network::Device::Station(station)))
                .about(terminal_id(context.site, context.layout, start.stage, device.terminal))
                .in_state(StateKind::PowerReturn)
                .figures(lowest_v, limit_v, Unit::Volt)
                .with("model", model.head.name.as_str())
                .with("source", &context.layout.stages[start.stage].id)
                .also_at("limit", model.least_standby_voltage.origin.clone())
                .graded(super::start_up_fails::grade(context));
            report.push(found);
        }
    }
}
