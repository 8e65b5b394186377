//! What meters show of a run alone: without power, taken off at both ends and from its stations.

use crate::effect::Effect;
use crate::plant::Plant;
use crate::predict::Predicted;
use crate::quantity::{MOST_INSULATION_OHM, OPEN_OHM, Quantity};
use latchline_network::readings::capacitance_f_per_m;
use latchline_network::{Corner, NodeRef};

/// Insulation of a sound run that nobody measured, in ohms, and the deviation of its common logarithm (assumed).
const SOUND_INSULATION_OHM: f64 = 50e6;
const INSULATION_DEVIATION: f64 = 0.4;

/// The run of a reading of a run alone.
pub(crate) fn run_alone(quantity: &Quantity) -> Option<usize> {
    match quantity {
        Quantity::Loop { run }
        | Quantity::Insulation { run }
        | Quantity::Earth { run }
        | Quantity::Capacitance { run } => Some(*run),
        _ => None,
    }
}

/// A reading of a run alone; `None` where it is not one, or the cable's capacitance is not known.
pub(crate) fn read_alone(plant: &Plant<'_>, quantity: &Quantity, effects: &[Effect]) -> Option<Predicted> {
    match quantity {
        Quantity::Loop { run } => {
            Some(Predicted { value: loop_ohm(plant, *run, effects), own: 0.0, range: 0.0 })
        }
        Quantity::Insulation { run } => {
            let (leak_s, hidden) = leak(plant, *run, effects);
            let value = parallel_log(sound_insulation(plant, *run), leak_s);
            let own = if leak_s > 0.0 && !hidden { 0.05 } else { INSULATION_DEVIATION };
            Some(Predicted { value, own, range: 0.0 })
        }
        Quantity::Earth { run } => {
            let earth = effects.iter().map(|effect| match effect {
                Effect::Earth { run: of, siemens } if of == run => *siemens,
                _ => 0.0,
            });
            let leak_s: f64 = earth.sum();
            let value = parallel_log(sound_insulation(plant, *run), leak_s);
            Some(Predicted { value, own: if leak_s > 0.0 { 0.05 } else { INSULATION_DEVIATION }, range: 0.0 })
        }
        Quantity::Capacitance { run } => capacitance(plant, *run, effects),
        _ => None,
    }
}

/// How a reading of a run alone depends on every factor.
pub(crate) fn row_alone(plant: &Plant<'_>, quantity: &Quantity, effects: &[Effect]) -> Vec<f64> {
    let mut row = vec![0.0; plant.factors];
    match quantity {
        Quantity::Loop { run } => {
            for (section, at) in plant.section[*run].iter().enumerate() {
                let Some(at) = *at else { continue };
                let Some(parts) = &plant.segments[at.stage][at.node] else { continue };
                // Behind a short or a break nothing counts.
                let share = loop_share(plant, *run, section, effects);
                let times = copper_times(*run, at, effects);
                for (factor, deviation) in &parts.copper {
                    row[*factor] += share * parts.copper_ohm * times * deviation;
                }
                if let Some(factor) = parts.terminal {
                    row[factor] += share * parts.terminal_ohm;
                }
            }
        }
        Quantity::Capacitance { run } => {
            let value = capacitance(plant, *run, effects).map_or(0.0, |found| found.value);
            for (factor, deviation) in &plant.capacitance[*run] {
                row[*factor] += value * deviation;
            }
        }
        _ => {}
    }
    row
}

fn sound_insulation(plant: &Plant<'_>, run: usize) -> f64 {
    let measured = plant.site.runs[run].measured.insulation.as_ref();
    measured.map_or(SOUND_INSULATION_OHM, |value| value.value.as_ohms())
}

fn parallel_log(sound_ohm: f64, leak_s: f64) -> f64 {
    (1.0 / (1.0 / sound_ohm + leak_s)).clamp(1e-2, MOST_INSULATION_OHM).log10()
}

/// Conductance between the legs that an ohmmeter at the near end sees, and whether a break hides some.
fn leak(plant: &Plant<'_>, run: usize, effects: &[Effect]) -> (f64, bool) {
    let mut broken = false;
    let mut series = 0.0;
    let mut leak_s = 0.0;
    for (section, at) in plant.section[run].iter().enumerate() {
        let Some(at) = at else { continue };
        let own = plant.layout.sections[run][section].ohm[Corner::Nominal.index()];
        for effect in effects {
            match *effect {
                Effect::Series { at: place, ohm } if place == *at => series += ohm,
                Effect::Open { at: place } if place == *at => broken = true,
                // The meter reads the loop up to there, too.
                Effect::Across { at: place, siemens, position } if place == *at && !broken => {
                    leak_s += siemens / (1.0 + (series + position * own) * siemens);
                }
                _ => {}
            }
        }
        series += own;
    }
    (leak_s, broken)
}

/// Loop resistance with the far end short-circuited, from the far end back.
fn loop_ohm(plant: &Plant<'_>, run: usize, effects: &[Effect]) -> f64 {
    sections_back(plant, run, effects).first().map_or(0.0, |(total, _)| total.min(OPEN_OHM))
}

/// What the loop reads grows by, for an ohm more in a section.
fn loop_share(plant: &Plant<'_>, run: usize, section: usize, effects: &[Effect]) -> f64 {
    let list = sections_back(plant, run, effects);
    list[..=section].iter().map(|(_, share)| share).product()
}

/// By section: the resistance seen from its near end, and the share of what is beyond that passes through it.
fn sections_back(plant: &Plant<'_>, run: usize, effects: &[Effect]) -> Vec<(f64, f64)> {
    let mut list = vec![(0.0, 1.0); plant.section[run].len()];
    let mut total = 0.0;
    for (section, at) in plant.section[run].iter().enumerate().rev() {
        let nominal = plant.layout.sections[run][section].bare_ohm(Corner::Nominal);
        let parts = at.and_then(|at| plant.segments[at.stage][at.node].as_ref());
        let mut own = nominal + parts.map_or(0.0, |parts| plant.beyond_nominal_ohm(parts));
        let mut bridges: Vec<(f64, f64)> = Vec::new();
        let copper =
            parts.map_or(nominal, |parts| parts.copper_ohm.min(nominal) * plant.times(&parts.copper));
        own += at.map_or(0.0, |at| (copper_times(run, at, effects) - 1.0) * copper);
        for effect in effects {
            match *effect {
                Effect::Series { at: place, ohm } if Some(place) == *at => own += ohm,
                Effect::Open { at: place } if Some(place) == *at => own += 2.0 * OPEN_OHM,
                Effect::Across { at: place, position, siemens } if Some(place) == *at => {
                    bridges.push((position, siemens));
                }
                _ => {}
            }
        }
        bridges.sort_by(|a, b| b.0.total_cmp(&a.0));
        let mut share = 1.0;
        let mut reached = 1.0;
        for (position, siemens) in bridges {
            total += (reached - position) * own;
            let passed = 1.0 / (1.0 + siemens * total);
            share *= passed * passed;
            total *= passed;
            reached = position;
        }
        total += reached * own;
        list[section] = (total, share);
    }
    list
}

/// How many times their resistance the conductors of a section have by a fault.
fn copper_times(run: usize, at: NodeRef, effects: &[Effect]) -> f64 {
    let times = effects.iter().map(|effect| match *effect {
        Effect::Longer { at: place, factor } if place == at => factor,
        Effect::Conductors { run: of, factor } if of == run => factor,
        _ => 1.0,
    });
    times.product()
}

fn capacitance(plant: &Plant<'_>, run: usize, effects: &[Effect]) -> Option<Predicted> {
    let site = plant.site;
    let wired = &site.runs[run];
    let total_m = wired.length().as_metres();
    let per_m = match &wired.measured.capacitance {
        Some(measured) if total_m > 0.0 => measured.value.as_farads() / total_m,
        _ => capacitance_f_per_m(wired, site.cable(wired))?,
    };
    let per_m = per_m * plant.times(&plant.capacitance[run]);
    let mut value = 0.0;
    let mut own = 0.0;
    'sections: for (section, at) in plant.section[run].iter().enumerate() {
        let length_m = wired.sections[section].length.value.as_metres();
        let mut factor = 1.0;
        for effect in effects {
            match *effect {
                // A break may be anywhere in its section.
                Effect::Open { at: place } if Some(place) == *at => {
                    value += 0.5 * per_m * length_m;
                    own = per_m * length_m / 12.0_f64.sqrt();
                    break 'sections;
                }
                Effect::Longer { at: place, factor: times } if Some(place) == *at => factor *= times,
                _ => {}
            }
        }
        value += per_m * length_m * factor;
    }
    for effect in effects {
        match *effect {
            Effect::Capacitance { run: of, farad } if of == run => value += farad,
            // A meter of capacitance reads nothing certain with a resistance across.
            Effect::Across { at, siemens, .. } if plant.section[run].contains(&Some(at)) => {
                own = f64::hypot(own, value * (siemens * 1e5).min(10.0));
            }
            _ => {}
        }
    }
    Some(Predicted { value, own, range: 0.0 })
}
