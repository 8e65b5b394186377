//! What might mend a finding, by its code.

mod places;
mod settings;
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
            list.extend(wiring::for_device(bench, &element));
        }
        "no-operating-point" => {
            let devices = match finding.argument("devices") {
                Some(Argument::Elements(devices)) => devices.clone(),
                _ => Vec::new(),
            };
            // The deepest ones say where the copper is missing.
            for device in devices.iter().rev().take(2) {
                list.extend(wiring::for_device(bench, device.as_str()));
            }
            list.extend(settings::larger_supply(bench, &element));
        }
        "supply-overloaded" | "supply-count-exceeded" => {
            list.extend(settings::larger_supply(bench, &element));
            list.extend(settings::lighter_stations(bench, &element));
        }
        "port-overloaded"
        | "too-many-stations-on-port"
        | "total-length-exceeded"
        | "run-too-long"
        | "silenced-group" => list.extend(wiring::for_port_or_run(bench, &element)),
        "voltage-too-high" => list.extend(settings::lower_supply_voltage(bench, finding)),
        "cable-unsuitable" | "clad-aluminium" | "beside-mains" | "more-pairs-than-cable" => {
            list.extend(wiring::other_cables(bench, &element));
            list.extend(settings::fewer_pairs(bench, &element));
        }
        "outdoor-run-without-surge-protection" => {
            list.extend(settings::surge_protection(bench, &element));
        }
        code if code.starts_with("terminator-") => {
            list.extend(settings::terminators(bench, &element, code));
        }
        "mixed-families" => list.extend(settings::part_of_the_family(bench, &element)),
        "dwelling-without-entrance" => list.extend(places::widen_scope(bench, &element)),
        "acceptance-without-match" => list.extend(settings::remove_acceptance(bench, finding)),
        code if code.contains("address") || code.contains("number") || code.contains("main") => {
            list.extend(settings::other_number(bench, &element));
        }
        _ => {}
    }
    list.dedup();
    list
}
