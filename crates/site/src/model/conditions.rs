//! What a site is judged under, and what its user wants.

use crate::keys::bounds::*;
use crate::keys::{Kind, keys};
use crate::parse::AssumedKey;
use latchline_finding::Sourced;
use latchline_finding::quantity::{Duration, Length, Ratio, Resistance, Temperature, Voltage};

/// Conductor temperature for nominal values of a site that states none, in °C (assumed).
pub const USUAL_CONDUCTOR_C: f64 = 20.0;
/// Hottest conductor temperature of a site that states none, in °C (assumed).
pub const HOTTEST_CONDUCTOR_C: f64 = 40.0;
/// Coldest conductor temperature of a site that states none, in °C (assumed).
pub const COLDEST_CONDUCTOR_C: f64 = 0.0;
/// How far true lengths may differ on a site that does not say, as a fraction (assumed).
pub const USUAL_LENGTH_TOLERANCE: f64 = 0.05;
/// Cable for making off at each end on a site that does not say, in metres.
pub const USUAL_END_ALLOWANCE_M: f64 = 0.3;
/// Resistance of one terminal in one conductor on a site that does not say, in ohms (assumed).
pub const USUAL_JOINT_OHM: f64 = 0.01;
/// An hour of an installer where nothing says what it costs, in units of the catalogue's currency (common practice, no source).
pub const USUAL_LABOUR_PER_HOUR: f64 = 45.0;
/// Extra length for bends where a survey says nothing, as a fraction of the route (common practice, no source).
pub const USUAL_SLACK: f64 = 0.05;
/// A margin below this is thin on a site that does not say, in volts.
pub const USUAL_THIN_MARGIN_V: f64 = 1.0;

keys! {
    /// Temperatures and tolerances under which the site is judged.
    pub struct Conditions = CONDITIONS Condition;
    read(record, provenance);

    /// Usual conductor temperature, for nominal values. Without it 20 °C.
    usual_temperature: Sourced<Temperature> = or_assumed(TEMPERATURE, Temperature::from_celsius(USUAL_CONDUCTOR_C));
    /// Hottest conductor temperature, for the worst case. Without it 40 °C.
    hottest_temperature: Sourced<Temperature> = or_assumed(TEMPERATURE, Temperature::from_celsius(HOTTEST_CONDUCTOR_C));
    /// Coldest conductor temperature, for the least resistance. Without it 0 °C.
    coldest_temperature: Sourced<Temperature> = or_assumed(TEMPERATURE, Temperature::from_celsius(COLDEST_CONDUCTOR_C));
    /// How far true lengths may lie above or below the stated ones. Without it 5 %.
    length_tolerance: Sourced<Ratio> = or_assumed(TOLERANCE, Ratio::from_fraction(USUAL_LENGTH_TOLERANCE));
    /// Cable for making off at each end of a section, which the cut list adds to the stated lengths. Without it 0.3 m; 0 m where the
    /// stated lengths have it already, as those of `design` do.
    end_allowance: Sourced<Length> = or(END_ALLOWANCE, Length::from_metres(USUAL_END_ALLOWANCE_M));
    /// Resistance of one joint or terminal in one conductor. Without it 10 mohm, assumed.
    joint_resistance: Sourced<Resistance> = or_assumed(RESISTANCE_OR_NONE, Resistance::from_ohms(USUAL_JOINT_OHM));
    /// Keys whose values are assumed.
    field assumed: Vec<AssumedKey> = record.assumed_keys();
}

/// How long a call lasts where calls are stated but not their duration, in seconds (assumed).
pub const USUAL_CALL_S: f64 = 60.0;

keys! {
    /// What you want beyond "it works".
    pub struct Policy = POLICY Policy;
    read(record, provenance);

    /// A station that passes by less than this is called thin. Without it 1 V.
    thin_margin: Sourced<Voltage> = or(SMALL_VOLTAGE, Voltage::from_volts(USUAL_THIN_MARGIN_V));
    /// Most dwellings that one broken joint or removed station may silence.
    largest_silenced_group: Option<Sourced<u32>> = may(SITE_COUNT);
    /// Whether a chain may loop in and out of one dwelling to reach another. Without it true.
    chains_through_dwellings: Sourced<bool> = or(BOOLEAN, true);
    /// Distributor ports to keep free.
    spare_ports: Option<Sourced<u32>> = may(SITE_COUNT);
    /// How many doors may be released outside of their calls (exit button, reader, keypad) at once while calls stand; which of them is
    /// searched. As many as there are doors, or more: all. Without it none is counted, and the report says so.
    releases_at_once: Option<Sourced<u32>> = may(SITE_COUNT);
    /// Hours that the battery must carry the site: standby, with the calls of `calls_per_hour`. 0 asks for none.
    standby_hours: Option<Sourced<f64>> = may(Kind::Number(0.0, 1000.0));
    /// Calls in an hour, over all doors, while the battery carries the site. Without it standby alone is judged, and the report
    /// says so.
    calls_per_hour: Option<Sourced<f64>> = may(Kind::Number(0.0, 3600.0));
    /// How long such a call lasts, from the bell button to the end of speech. Without it 60 s, told as assumed where calls
    /// are counted.
    call_duration: Option<Sourced<Duration>> = may(TIME);
}

impl Policy {
    /// What is asked for: of 0 hours nobody asks for a battery.
    pub(crate) fn with_zero_as_none(mut self) -> Self {
        self.standby_hours = self.standby_hours.filter(|hours| hours.value > 0.0);
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_key_is_without_is_what_its_page_says() {
        let told = [
            (&CONDITIONS, "usual_temperature", format!("{USUAL_CONDUCTOR_C} °C")),
            (&CONDITIONS, "hottest_temperature", format!("{HOTTEST_CONDUCTOR_C} °C")),
            (&CONDITIONS, "coldest_temperature", format!("{COLDEST_CONDUCTOR_C} °C")),
            (&CONDITIONS, "length_tolerance", format!("{} %", 100.0 * USUAL_LENGTH_TOLERANCE)),
            (&CONDITIONS, "end_allowance", format!("{USUAL_END_ALLOWANCE_M} m")),
            (&CONDITIONS, "joint_resistance", format!("{} mohm", 1000.0 * USUAL_JOINT_OHM)),
            (&POLICY, "thin_margin", format!("{USUAL_THIN_MARGIN_V} V")),
            (&POLICY, "call_duration", format!("{USUAL_CALL_S} s")),
        ];
        for (table, name, figure) in told {
            let key = table.keys.iter().find(|key| key.name == name).expect("a key");
            assert!(key.doc.contains(&format!("Without it {figure}")), "{name}: {}", key.doc);
        }
    }
}
