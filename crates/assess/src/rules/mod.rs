//! The rules: one rule, one file. Its words and its manual page stand in a file of the same name in the crate of words.

pub mod acceptance_without_match;
pub mod accessory_chain_too_long;
pub mod accessory_current_exceeded;
pub mod addresses;
pub mod alarm_cable_not_watched;
pub mod alarm_inputs_exceeded;
pub mod alarm_loop_too_long;
pub mod alarm_tells_nobody;
pub mod battery_end_voltage_low;
pub mod battery_hours_short;
pub mod battery_missing;
pub mod beside_mains;
pub mod box_without_runs;
pub mod branch_not_allowed;
pub mod bus_of_another_family;
pub mod bus_voltage_above_selv;
pub mod bus_voltage_wet;
pub mod cable_unsuitable;
pub mod call_across_buses;
pub mod call_buttons_too_few;
pub mod cascade_too_deep;
pub mod chain_not_allowed;
pub mod chain_through_dwellings;
pub mod charger_too_small;
pub mod clad_aluminium;
pub mod control_height;
pub mod country_without_rules;
pub mod delayed_egress_too_long;
pub mod directory_too_small;
pub mod dwelling_without_entrance;
pub mod end_station_looped;
pub mod entrance_calls_nobody;
pub mod entrance_without_lock;
pub mod escape_advice;
pub mod escape_decision_missing;
pub mod escape_depends_on_bus;
pub mod escape_fail_secure;
pub mod existing_run_not_measured;
pub mod exit_button_missing;
pub mod fire_interlock_missing;
pub mod fire_interlock_without_effect;
pub mod fire_release_through_station;
pub mod heater_missing;
pub mod hold_time_overridden;
pub mod insulation_too_low;
pub mod light_feed_missing;
pub mod light_feed_unsuitable;
pub mod light_output_overloaded;
mod limit;
pub mod line_constants_missing;
pub mod link_not_wired;
pub mod lock_contact_wiring;
pub mod lock_current_kind;
pub mod lock_duty_exceeded;
pub mod lock_feed_missing;
pub mod lock_output_overloaded;
pub mod lock_outputs_exceeded;
pub mod lock_voltage_too_high;
pub mod lock_voltage_too_low;
pub mod measured_capacitance_differs;
pub mod measured_loop_differs;
pub mod mixed_families;
pub mod more_pairs_than_cable;
pub mod no_entrance;
pub mod no_operating_point;
pub mod no_spare_ports;
pub mod no_station;
pub mod outdoor_run_without_surge_protection;
pub mod port_overloaded;
pub mod prices_left_out;
pub mod relay_on_unsecure_side;
pub mod relay_overloaded;
pub mod run_too_long;
pub mod section_shorter_than_climb;
pub mod section_very_short;
pub mod short_circuit_darkens;
pub mod short_circuit_not_cleared;
pub mod short_circuit_not_detected;
pub mod signal_notch;
pub mod signal_ripple;
pub mod signal_too_weak;
pub mod silenced_group;
pub mod start_up_dip;
pub mod start_up_dropouts;
pub mod start_up_fails;
pub mod start_up_hiccups;
pub mod supply_count_exceeded;
pub mod supply_outputs_exceeded;
pub mod supply_overloaded;
pub mod supply_set_too_low;
pub mod supply_shorts_signal;
pub mod supply_too_hot;
pub mod supply_without_load;
pub mod suppression_missing;
pub mod suppression_unsuitable;
pub mod terminator_doubled;
pub mod terminator_misplaced;
pub mod terminator_missing;
pub mod terminator_not_needed;
pub mod terminator_without_capacitor;
pub mod thin_margin;
pub mod too_many_door_stations;
pub mod too_many_stations_in_dwelling;
pub mod too_many_stations_on_port;
pub mod total_length_exceeded;
pub mod trip_below_legitimate_current;
pub mod voltage_too_high;
pub mod voltage_too_low;

pub use port_overloaded::port_limit;
pub use supply_count_exceeded::supply_counts;

use crate::rule::Rule;
use crate::stage::Stage;
use latchline_finding::Code;

/// How far rules are followed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Depth {
    /// Those that look at the wiring alone.
    Wiring,
    /// Also those that look at voltages, currents and short circuits.
    Voltages,
    /// Also those that look at signals and simulated starts: all.
    Everything,
}

/// Positions in [`ALL`] of the rules of a depth, those first whose stage needs least time: the wiring alone, then the one that is asked
/// for, then in the order of [`Stage::ALL`].
pub(crate) fn quickest_first(depth: Depth, asked: Option<Code>) -> Vec<usize> {
    let needed = |index: &usize| match ALL[*index].reads() {
        None => Depth::Wiring,
        Some(Stage::Voltages | Stage::ShortCircuit) => Depth::Voltages,
        Some(Stage::Signal | Stage::StartUp) => Depth::Everything,
    };
    let mut order: Vec<usize> = (0..ALL.len()).filter(|index| needed(index) <= depth).collect();
    order.sort_by_key(|index| {
        let rule = ALL[*index];
        (rule.reads().is_some() && Some(rule.doc.code) != asked, rule.reads())
    });
    order
}

/// Lists every rule once: makes [`ALL`] and [`codes`] of the list.
macro_rules! rules {
    ($($module:ident::$name:ident,)*) => {
        /// Every rule, in the order in which findings of one severity are listed.
        pub const ALL: &[&Rule] = &[$(&$module::$name),*];

        /// The codes of all rules, to match findings by.
        pub mod codes {
            $(pub use super::$module::CODE as $name;)*
        }
    };
}

rules! {
    supply_set_too_low::SUPPLY_SET_TOO_LOW,
    no_operating_point::NO_OPERATING_POINT,
    voltage_too_low::VOLTAGE_TOO_LOW,
    voltage_too_high::VOLTAGE_TOO_HIGH,
    supply_overloaded::SUPPLY_OVERLOADED,
    port_overloaded::PORT_OVERLOADED,
    trip_below_legitimate_current::TRIP_BELOW_LEGITIMATE_CURRENT,
    start_up_fails::START_UP_FAILS,
    start_up_hiccups::START_UP_HICCUPS,
    short_circuit_not_cleared::SHORT_CIRCUIT_NOT_CLEARED,
    supply_shorts_signal::SUPPLY_SHORTS_SIGNAL,
    signal_too_weak::SIGNAL_TOO_WEAK,
    signal_notch::SIGNAL_NOTCH,
    signal_ripple::SIGNAL_RIPPLE,
    supply_count_exceeded::SUPPLY_COUNT_EXCEEDED,
    supply_outputs_exceeded::SUPPLY_OUTPUTS_EXCEEDED,
    mixed_families::MIXED_FAMILIES,
    call_across_buses::CALL_ACROSS_BUSES,
    dwelling_without_entrance::DWELLING_WITHOUT_ENTRANCE,
    directory_too_small::DIRECTORY_TOO_SMALL,
    call_buttons_too_few::CALL_BUTTONS_TOO_FEW,
    too_many_stations_on_port::TOO_MANY_STATIONS_ON_PORT,
    run_too_long::RUN_TOO_LONG,
    section_very_short::SECTION_VERY_SHORT,
    section_shorter_than_climb::SECTION_SHORTER_THAN_CLIMB,
    total_length_exceeded::TOTAL_LENGTH_EXCEEDED,
    cascade_too_deep::CASCADE_TOO_DEEP,
    too_many_door_stations::TOO_MANY_DOOR_STATIONS,
    too_many_stations_in_dwelling::TOO_MANY_STATIONS_IN_DWELLING,
    more_pairs_than_cable::MORE_PAIRS_THAN_CABLE,
    chain_not_allowed::CHAIN_NOT_ALLOWED,
    branch_not_allowed::BRANCH_NOT_ALLOWED,
    end_station_looped::END_STATION_LOOPED,
    terminator_missing::TERMINATOR_MISSING,
    terminator_without_capacitor::TERMINATOR_WITHOUT_CAPACITOR,
    accessory_current_exceeded::ACCESSORY_CURRENT_EXCEEDED,
    accessory_chain_too_long::ACCESSORY_CHAIN_TOO_LONG,
    light_feed_missing::LIGHT_FEED_MISSING,
    light_feed_unsuitable::LIGHT_FEED_UNSUITABLE,
    light_output_overloaded::LIGHT_OUTPUT_OVERLOADED,
    alarm_inputs_exceeded::ALARM_INPUTS_EXCEEDED,
    alarm_loop_too_long::ALARM_LOOP_TOO_LONG,
    cable_unsuitable::CABLE_UNSUITABLE,
    insulation_too_low::INSULATION_TOO_LOW,
    bus_voltage_above_selv::BUS_VOLTAGE_ABOVE_SELV,
    silenced_group::SILENCED_GROUP,
    chain_through_dwellings::CHAIN_THROUGH_DWELLINGS,
    no_spare_ports::NO_SPARE_PORTS,
    lock_feed_missing::LOCK_FEED_MISSING,
    lock_voltage_too_low::LOCK_VOLTAGE_TOO_LOW,
    lock_voltage_too_high::LOCK_VOLTAGE_TOO_HIGH,
    lock_current_kind::LOCK_CURRENT_KIND,
    lock_outputs_exceeded::LOCK_OUTPUTS_EXCEEDED,
    lock_output_overloaded::LOCK_OUTPUT_OVERLOADED,
    relay_overloaded::RELAY_OVERLOADED,
    lock_contact_wiring::LOCK_CONTACT_WIRING,
    lock_duty_exceeded::LOCK_DUTY_EXCEEDED,
    suppression_unsuitable::SUPPRESSION_UNSUITABLE,
    escape_fail_secure::ESCAPE_FAIL_SECURE,
    escape_depends_on_bus::ESCAPE_DEPENDS_ON_BUS,
    fire_interlock_missing::FIRE_INTERLOCK_MISSING,
    fire_release_through_station::FIRE_RELEASE_THROUGH_STATION,
    delayed_egress_too_long::DELAYED_EGRESS_TOO_LONG,
    battery_missing::BATTERY_MISSING,
    battery_hours_short::BATTERY_HOURS_SHORT,
    supply_too_hot::SUPPLY_TOO_HOT,
    thin_margin::THIN_MARGIN,
    heater_missing::HEATER_MISSING,
    alarm_cable_not_watched::ALARM_CABLE_NOT_WATCHED,
    alarm_tells_nobody::ALARM_TELLS_NOBODY,
    start_up_dip::START_UP_DIP,
    start_up_dropouts::START_UP_DROPOUTS,
    short_circuit_not_detected::SHORT_CIRCUIT_NOT_DETECTED,
    line_constants_missing::LINE_CONSTANTS_MISSING,
    beside_mains::BESIDE_MAINS,
    clad_aluminium::CLAD_ALUMINIUM,
    measured_loop_differs::MEASURED_LOOP_DIFFERS,
    measured_capacitance_differs::MEASURED_CAPACITANCE_DIFFERS,
    outdoor_run_without_surge_protection::OUTDOOR_RUN_WITHOUT_SURGE_PROTECTION,
    terminator_misplaced::TERMINATOR_MISPLACED,
    terminator_doubled::TERMINATOR_DOUBLED,
    bus_of_another_family::BUS_OF_ANOTHER_FAMILY,
    no_station::NO_STATION,
    no_entrance::NO_ENTRANCE,
    entrance_calls_nobody::ENTRANCE_CALLS_NOBODY,
    box_without_runs::BOX_WITHOUT_RUNS,
    supply_without_load::SUPPLY_WITHOUT_LOAD,
    link_not_wired::LINK_NOT_WIRED,
    bus_voltage_wet::BUS_VOLTAGE_WET,
    existing_run_not_measured::EXISTING_RUN_NOT_MEASURED,
    short_circuit_darkens::SHORT_CIRCUIT_DARKENS,
    entrance_without_lock::ENTRANCE_WITHOUT_LOCK,
    terminator_not_needed::TERMINATOR_NOT_NEEDED,
    exit_button_missing::EXIT_BUTTON_MISSING,
    fire_interlock_without_effect::FIRE_INTERLOCK_WITHOUT_EFFECT,
    relay_on_unsecure_side::RELAY_ON_UNSECURE_SIDE,
    battery_end_voltage_low::BATTERY_END_VOLTAGE_LOW,
    charger_too_small::CHARGER_TOO_SMALL,
    hold_time_overridden::HOLD_TIME_OVERRIDDEN,
    suppression_missing::SUPPRESSION_MISSING,
    control_height::CONTROL_HEIGHT,
    escape_decision_missing::ESCAPE_DECISION_MISSING,
    escape_advice::ESCAPE_ADVICE,
    prices_left_out::PRICES_LEFT_OUT,
    country_without_rules::COUNTRY_WITHOUT_RULES,
    acceptance_without_match::ACCEPTANCE_WITHOUT_MATCH,
}
