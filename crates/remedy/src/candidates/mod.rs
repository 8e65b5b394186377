//! What might mend a finding, by its code.

mod battery;
mod door;
mod fittings;
mod places;
mod prices;
mod rearranged;
mod settings;
mod signal;
mod wiring;

use crate::bench::Bench;
use crate::candidate::Candidate;
use latchline_finding::{Argument, Finding};

/// Candidates for a finding, most promising first; empty where nothing is known that a program
/// could decide.
pub fn of(bench: &Bench<'_>, finding: &Finding) -> Vec<Candidate> {
    let Some(element) = finding.element.as_ref().map(|element| element.as_str().to_string()) else {
        return settings::without_element(bench, finding);
    };
    let mut list = Vec::new();
    match finding.code.as_str() {
        "voltage-too-low" | "thin-margin" => {
            list.extend(settings::part_of_the_family(bench, &element));
            list.extend(wiring::for_device(bench, &element));
            list.extend(rearranged::changed_order(bench, &element));
            if let Some(source) = source_of(bench, &element) {
                list.extend(rearranged::supply_nearer_by(bench, &source));
            }
        }
        "end-station-looped" => {
            list.extend(rearranged::changed_order(bench, &element));
            list.extend(rearranged::branch_box(bench, &element));
        }
        "no-operating-point" => {
            list.extend(settings::larger_supply(bench, &element));
            // The farthest device says where the copper is missing.
            if let Some(farthest) = farthest(bench, finding) {
                list.extend(wiring::for_device(bench, &farthest));
            }
            list.extend(rearranged::supply_nearer_by(bench, &element));
        }
        "supply-overloaded" | "supply-count-exceeded" | "start-up-fails" | "start-up-hiccups" => {
            list.extend(settings::larger_supply(bench, &element));
            list.extend(settings::lighter_stations(bench, &element));
            list.extend(fittings::lights_off_the_bus(bench, &element));
            list.extend(rearranged::supply_nearer_by(bench, &element));
        }
        "trip-below-legitimate-current" => {
            list.extend(settings::larger_supply(bench, &element));
            list.extend(wiring::for_port_or_run(bench, &element));
        }
        "signal-too-weak" | "signal-notch" | "signal-ripple" => {
            list.extend(signal::for_signal(bench, finding));
        }
        "short-circuit-not-cleared" | "short-circuit-not-detected" => {
            list.extend(wiring::new_cable(bench, &element));
            list.extend(wiring::for_port_or_run(bench, &element));
        }
        "port-overloaded" | "too-many-stations-on-port" | "total-length-exceeded" | "run-too-long" => {
            list.extend(wiring::for_port_or_run(bench, &element))
        }
        "silenced-group" => {
            list.extend(wiring::for_port_or_run(bench, &element));
            list.extend(wiring::rehomed_runs(bench, &element));
        }
        "voltage-too-high" => {
            list.extend(settings::part_of_the_family(bench, &element));
            list.extend(settings::lower_supply_voltage(bench, finding));
        }
        "measured-loop-differs" | "measured-capacitance-differs" | "insulation-too-low" => {
            list.extend(wiring::new_cable(bench, &element));
        }
        "cable-unsuitable" | "clad-aluminium" | "beside-mains" | "more-pairs-than-cable" => {
            list.extend(wiring::other_cables(bench, finding, &element));
            list.extend(settings::fewer_pairs(bench, &element));
        }
        "outdoor-run-without-surge-protection" => {
            list.extend(settings::surge_protection(bench, &element));
        }
        code if code.starts_with("terminator-") => {
            list.extend(settings::terminators(bench, &element, code));
        }
        "lock-outputs-exceeded" => list.extend(door::for_entrance(bench, &element)),
        "accessory-current-exceeded"
        | "accessory-chain-too-long"
        | "directory-too-small"
        | "light-feed-missing"
        | "light-feed-unsuitable"
        | "light-output-overloaded"
        | "heater-missing"
        | "alarm-inputs-exceeded"
        | "alarm-loop-too-long"
        | "alarm-cable-not-watched"
        | "alarm-tells-nobody" => {
            list.extend(fittings::for_fittings(bench, &element, finding.code.as_str()));
        }
        "battery-hours-short" | "charger-too-small" | "supply-too-hot" => {
            list.extend(battery::for_supply(bench, &element));
            list.extend(fittings::lights_off_the_bus(bench, &element));
        }
        "battery-end-voltage-low" => {
            if let Some(Argument::Element(worst)) = finding.argument("worst") {
                list.extend(wiring::for_device(bench, worst.as_str()));
            }
        }
        "mixed-families" => list.extend(settings::part_of_the_family(bench, &element)),
        "dwelling-without-entrance" => list.extend(places::widen_scope(bench, &element)),
        "acceptance-without-match" => list.extend(settings::remove_acceptance(bench, finding)),
        code if code.contains("address") || code.contains("number") || code.contains("main") => {
            list.extend(settings::other_number(bench, &element));
        }
        _ => list.extend(door::for_lock(bench, finding)),
    }
    list.dedup();
    list
}

/// The supply or box on whose tree a device hangs.
fn source_of(bench: &Bench<'_>, device: &str) -> Option<String> {
    let found = bench.assessment.devices.iter().find(|one| one.id.as_str() == device)?;
    Some(found.source.to_string())
}

/// The device farthest from its source among those that a finding names.
fn farthest(bench: &Bench<'_>, finding: &Finding) -> Option<String> {
    let Some(Argument::Elements(devices)) = finding.argument("devices") else { return None };
    bench
        .assessment
        .devices
        .iter()
        .filter(|device| devices.contains(&device.id))
        .max_by(|a, b| a.loop_resistance_ohm.total_cmp(&b.loop_resistance_ohm))
        .map(|device| device.id.to_string())
}
