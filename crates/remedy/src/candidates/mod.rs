//! What might mend a finding, by its code.

mod battery;
mod door;
mod family;
mod fittings;
mod landing_boxes;
mod moved;
mod numbers;
mod places;
mod prices;
mod rearranged;
mod run_text;
mod second_box;
mod second_supply;
mod settings;
mod signal;
mod wiring;

pub(crate) use settings::idle_acceptance;
pub(crate) use wiring::runs_on_path;

use crate::bench::Bench;
use crate::candidate::Candidate;
use latchline_assess::DeviceResult;
use latchline_assess::rules::codes;
use latchline_finding::{Argument, Code, Finding};
use latchline_site::codes as addresses;

/// Candidates for a finding, most promising first; none where nothing is known that a program
/// could decide. Where there may be very many they are made one by one.
pub fn of<'c>(bench: &'c Bench<'_>, finding: &'c Finding) -> Box<dyn Iterator<Item = Candidate> + 'c> {
    match finding.code {
        codes::SIGNAL_TOO_WEAK | codes::SIGNAL_NOTCH | codes::SIGNAL_RIPPLE if finding.element.is_some() => {
            let mut last = None;
            let is_other = move |candidate: &Candidate| {
                let is_other = last.as_ref() != Some(candidate);
                last = Some(candidate.clone());
                is_other
            };
            Box::new(signal::for_signal(bench, finding).filter(is_other))
        }
        _ => Box::new(listed(bench, finding).into_iter()),
    }
}

fn listed(bench: &Bench<'_>, finding: &Finding) -> Vec<Candidate> {
    let Some(element) = finding.element.as_ref().map(|element| element.as_str().to_string()) else {
        return Vec::new();
    };
    let mut list = Vec::new();
    // It buys nothing and takes minutes.
    if gains_by_voltage(finding.code) {
        list.extend(settings::back_to_delivered(bench, &element));
    }
    match finding.code {
        codes::VOLTAGE_TOO_LOW | codes::THIN_MARGIN => {
            list.extend(family::part_of_the_family(bench, &element));
            list.extend(wiring::for_device(bench, &element));
            list.extend(rearranged::changed_order(bench, &element));
            if let Some(source) = source_of(bench, &element) {
                list.extend(rearranged::supply_nearer_by(bench, &source));
            }
            list.extend(moved::way_of_device(bench, &element));
            list.extend(rearranged::regenerating_box_in_front(bench, &element));
        }
        codes::END_STATION_LOOPED => {
            list.extend(rearranged::changed_order(bench, &element));
            list.extend(rearranged::branch_box(bench, &element));
        }
        codes::NO_OPERATING_POINT => {
            list.extend(settings::larger_supply(bench, &element));
            // The end of the run that it is lost on says where the copper is missing.
            if let Some(farthest) = farthest(bench, finding) {
                list.extend(wiring::for_device(bench, &farthest));
                list.extend(rearranged::regenerating_box_in_front(bench, &farthest));
            }
            list.extend(rearranged::supply_nearer_by(bench, &element));
            list.extend(moved::to_a_box_beside(bench, &element));
        }
        codes::SUPPLY_OVERLOADED
        | codes::SUPPLY_COUNT_EXCEEDED
        | codes::START_UP_FAILS
        | codes::START_UP_HICCUPS
        | codes::START_UP_DROPOUTS => {
            list.extend(match finding.code {
                codes::SUPPLY_OVERLOADED | codes::SUPPLY_COUNT_EXCEEDED => {
                    settings::larger_supply(bench, &element)
                }
                _ => settings::supply_for_a_start(bench, &element),
            });
            list.extend(settings::lighter_stations(bench, &element));
            list.extend(fittings::lights_off_the_bus(bench, &element));
            list.extend(rearranged::supply_nearer_by(bench, &element));
            list.extend(second_supply::for_supply(bench, &element));
            list.extend(moved::to_a_box_beside(bench, &element));
        }
        codes::TRIP_BELOW_LEGITIMATE_CURRENT => {
            list.extend(settings::larger_supply(bench, &element));
            list.extend(wiring::for_port_or_run(bench, &element));
            list.extend(moved::runs_beyond(bench, &element));
        }
        codes::CALL_ACROSS_BUSES => list.extend(moved::onto_the_bus_of_its_door(bench, &element)),
        codes::CASCADE_TOO_DEEP => list.extend(moved::way_of_device(bench, &element)),
        codes::SHORT_CIRCUIT_NOT_CLEARED | codes::SHORT_CIRCUIT_NOT_DETECTED => {
            list.extend(wiring::new_cable(bench, &element));
            list.extend(wiring::for_port_or_run(bench, &element));
        }
        codes::PORT_OVERLOADED
        | codes::TOO_MANY_STATIONS_ON_PORT
        | codes::TOTAL_LENGTH_EXCEEDED
        | codes::RUN_TOO_LONG
        | codes::SILENCED_GROUP => {
            list.extend(wiring::for_port_or_run(bench, &element));
            list.extend(second_box::for_port_or_run(bench, &element));
            list.extend(moved::exchanged(bench, &element));
            list.extend(moved::runs_beyond(bench, &element));
            if finding.code == codes::PORT_OVERLOADED {
                list.extend(door::locks_beyond(bench, &element));
            }
        }
        codes::CHAIN_THROUGH_DWELLINGS => {
            list.extend(landing_boxes::branch_box_for_each_landing(bench, &element));
        }
        codes::VOLTAGE_TOO_HIGH => {
            list.extend(family::part_of_the_family(bench, &element));
            list.extend(settings::lower_supply_voltage(bench, finding));
        }
        codes::MEASURED_LOOP_DIFFERS | codes::MEASURED_CAPACITANCE_DIFFERS | codes::INSULATION_TOO_LOW => {
            list.extend(wiring::new_cable(bench, &element));
        }
        codes::CABLE_UNSUITABLE
        | codes::CLAD_ALUMINIUM
        | codes::BESIDE_MAINS
        | codes::MORE_PAIRS_THAN_CABLE => {
            list.extend(wiring::other_cables(bench, finding, &element));
            list.extend(settings::fewer_pairs(bench, &element));
        }
        codes::OUTDOOR_RUN_WITHOUT_SURGE_PROTECTION => {
            list.extend(settings::surge_protection(bench, &element));
        }
        codes::TERMINATOR_MISSING
        | codes::TERMINATOR_WITHOUT_CAPACITOR
        | codes::TERMINATOR_MISPLACED
        | codes::TERMINATOR_DOUBLED
        | codes::TERMINATOR_NOT_NEEDED => {
            list.extend(settings::terminators(bench, &element, finding.code));
        }
        codes::LOCK_OUTPUTS_EXCEEDED => list.extend(door::for_entrance(bench, &element)),
        codes::ACCESSORY_CURRENT_EXCEEDED
        | codes::ACCESSORY_CHAIN_TOO_LONG
        | codes::DIRECTORY_TOO_SMALL
        | codes::LIGHT_FEED_MISSING
        | codes::LIGHT_FEED_UNSUITABLE
        | codes::LIGHT_OUTPUT_OVERLOADED
        | codes::HEATER_MISSING
        | codes::ALARM_INPUTS_EXCEEDED
        | codes::ALARM_LOOP_TOO_LONG
        | codes::ALARM_CABLE_NOT_WATCHED
        | codes::ALARM_TELLS_NOBODY => {
            list.extend(fittings::for_fittings(bench, &element, finding.code));
        }
        codes::BATTERY_HOURS_SHORT | codes::CHARGER_TOO_SMALL | codes::SUPPLY_TOO_HOT => {
            list.extend(battery::for_supply(bench, &element));
            list.extend(fittings::lights_off_the_bus(bench, &element));
        }
        codes::SUPPLY_SET_TOO_LOW => list.extend(settings::as_delivered(bench, &element)),
        codes::BATTERY_MISSING => list.extend(battery::with_battery(bench, &element)),
        codes::SUPPLY_OUTPUTS_EXCEEDED => {
            list.extend(wiring::to_a_port_beside(bench, finding, &element));
            list.extend(battery::with_more_outputs(bench, &element));
            list.extend(rearranged::distributor_at_the_supply(bench, &element));
        }
        codes::BATTERY_END_VOLTAGE_LOW => {
            if let Some(Argument::Element(worst)) = finding.argument("worst") {
                list.extend(wiring::for_device(bench, worst.as_str()));
            }
        }
        codes::MIXED_FAMILIES => {
            list.extend(family::all_of_a_model(bench, finding));
            list.extend(family::part_of_the_family(bench, &element));
        }
        codes::DWELLING_WITHOUT_ENTRANCE => list.extend(places::widen_scope(bench, &element)),
        addresses::ADDRESS_DUPLICATE => {
            let other = match finding.argument("other") {
                Some(Argument::Element(other)) => Some(other.as_str()),
                _ => None,
            };
            list.extend(numbers::number_of_the_slip(bench, &element, other));
        }
        addresses::ADDRESS_OUT_OF_RANGE
        | addresses::ADDRESS_RESERVED
        | addresses::ADDRESS_NOT_EXPRESSIBLE
        | addresses::ADDRESSES_EXHAUSTED
        | addresses::TWO_MAIN_ENTRANCES => {
            list.extend(numbers::other_number(bench, &element));
        }
        _ => list.extend(door::for_lock(bench, finding)),
    }
    list.dedup();
    list
}

/// Whether a supply that gives more voltage can mend it: at more voltage the same power is less current, and less of it is lost on the way.
fn gains_by_voltage(code: Code) -> bool {
    matches!(
        code,
        codes::VOLTAGE_TOO_LOW
            | codes::THIN_MARGIN
            | codes::NO_OPERATING_POINT
            | codes::SUPPLY_OVERLOADED
            | codes::PORT_OVERLOADED
            | codes::TRIP_BELOW_LEGITIMATE_CURRENT
            | codes::SHORT_CIRCUIT_NOT_CLEARED
            | codes::SHORT_CIRCUIT_NOT_DETECTED
            | codes::START_UP_FAILS
            | codes::START_UP_HICCUPS
            | codes::START_UP_DROPOUTS
            | codes::START_UP_DIP
            | codes::BATTERY_HOURS_SHORT
            | codes::CHARGER_TOO_SMALL
            | codes::BATTERY_END_VOLTAGE_LOW
            | codes::SUPPLY_TOO_HOT
    )
}

/// The supply or box on whose tree a device hangs.
fn source_of(bench: &Bench<'_>, device: &str) -> Option<String> {
    let found = bench.assessment.devices.iter().find(|one| one.id.as_str() == device)?;
    Some(found.source.to_string())
}

/// The device farthest from its source among those that a finding names, on the run that it names if it names one.
fn farthest(bench: &Bench<'_>, finding: &Finding) -> Option<String> {
    let Some(Argument::Elements(devices)) = finding.argument("devices") else { return None };
    let run = finding.argument("run");
    let is_on_it = |device: &&DeviceResult| match run {
        Some(Argument::Element(run)) => device.run.as_ref() == Some(run),
        _ => true,
    };
    let all = || bench.assessment.devices.iter().filter(|device| devices.contains(&device.id));
    // A run that feeds boxes only has no device of its own.
    let has_one = all().any(|device| is_on_it(&device));
    all()
        .filter(|device| !has_one || is_on_it(device))
        .max_by(|a, b| a.loop_resistance_ohm.total_cmp(&b.loop_resistance_ohm))
        .map(|device| device.id.to_string())
}
