//! The devices that the system found, held against the plan.

use super::plan::fields_of;
use super::{AddressPlan, DeviceClass, FoundDevice, SwitchSetting, settings};
use crate::model::Site;
use std::collections::{BTreeMap, BTreeSet};

/// Most explanations that are kept for one device.
const MOST_EXPLANATIONS: usize = 5;
/// Most pairs of a found and a missing device that are compared.
const MOST_PAIRS: usize = 2_000_000;

/// One mistake in the setting of one address field.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// Two rotary switches are exchanged (12 set as 21).
    ExchangedRotaries,
    /// One rotary switch points to a wrong position.
    WrongRotary {
        /// Which switch, from 1.
        switch: u32,
        /// Where it points.
        set: u32,
        /// Where it should point.
        should: u32,
    },
    /// One on/off switch is in the wrong position.
    WrongDip {
        /// Its printed number.
        switch: u32,
        /// Whether it should be ON.
        should_be_on: bool,
    },
    /// All on/off switches are inverted.
    InvertedDip,
    /// The bank was read from the wrong end.
    ReversedDip,
    /// One jumper is wrong.
    WrongJumper {
        /// Which, from 1.
        jumper: u32,
        /// Whether it should be fitted.
        should_be_fitted: bool,
    },
    /// The keyed number is wrong.
    WrongKeyedNumber,
    /// Several switches of the field are wrong.
    SeveralSwitches {
        /// How many.
        count: u32,
    },
}

/// A way in which a missing device may have come to answer to the wrong address.
#[derive(Debug, Clone, PartialEq)]
pub struct Explanation {
    /// The station that was meant, as index into [`Site::stations`].
    pub station: usize,
    /// What is wrong, as (index of the field in its class, cause).
    pub causes: Vec<(usize, Cause)>,
    /// How far-fetched: 1 is one slip of the hand. Common practice, no source.
    pub cost: f64,
    /// Whether it belongs to the assignment of found to missing devices that is cheapest step by
    /// step, so that no station explains two found devices.
    pub best: bool,
}

/// A found device whose address is not in the plan, or one more of an address than planned.
#[derive(Debug, Clone, PartialEq)]
pub struct Unexpected {
    /// What was found.
    pub found: FoundDevice,
    /// How it may have come about, best first; empty if nothing is missing that it could be.
    pub explanations: Vec<Explanation>,
}

/// An address that answered more often than planned.
#[derive(Debug, Clone, PartialEq)]
pub struct Duplicate {
    /// Class of the devices.
    pub class: DeviceClass,
    /// The address.
    pub numbers: Vec<u32>,
    /// How often it was found.
    pub times: usize,
    /// The stations that are meant to have it, as indices into [`Site::stations`].
    pub stations: Vec<usize>,
    /// Which missing stations may be the surplus ones, best first.
    pub explanations: Vec<Explanation>,
}

/// The plan held against what was found.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Reconciliation {
    /// Stations that were found as planned.
    pub present: Vec<usize>,
    /// Stations that were not found.
    pub missing: Vec<usize>,
    /// Devices that nobody planned.
    pub unexpected: Vec<Unexpected>,
    /// Addresses that answered more often than planned.
    pub duplicated: Vec<Duplicate>,
}

type Address = (DeviceClass, Vec<u32>);

/// Holds the devices that the system found against the plan.
///
/// Where extensions share one address on purpose, the address counts as present once it answers,
/// and as duplicated only when it answers more often than it is planned.
pub fn reconcile(site: &Site, plan: &AddressPlan, list: &[FoundDevice]) -> Reconciliation {
    let mut planned: BTreeMap<Address, Vec<usize>> = BTreeMap::new();
    for address in &plan.stations {
        if let Some(numbers) = address.numbers.as_ref().filter(|numbers| !numbers.is_empty()) {
            planned.entry((address.class, numbers.clone())).or_default().push(address.station);
        }
    }
    let mut found: BTreeMap<Address, Vec<&FoundDevice>> = BTreeMap::new();
    for device in list {
        found.entry((device.class, device.numbers.clone())).or_default().push(device);
    }
    let mut result = Reconciliation::default();
    for (address, stations) in &planned {
        let target = if found.contains_key(address) { &mut result.present } else { &mut result.missing };
        target.extend(stations);
    }
    result.present.sort_unstable();
    result.missing.sort_unstable();
    let mut explainer = Explainer { site, plan, missing: &result.missing, pairs: 0 };
    for (address, devices) in &found {
        match planned.get(address) {
            None => {
                for device in devices {
                    let explanations = explainer.explain(&address.0, &device.numbers);
                    result.unexpected.push(Unexpected { found: (*device).clone(), explanations });
                }
            }
            Some(stations) if devices.len() > stations.len() => result.duplicated.push(Duplicate {
                class: address.0,
                numbers: address.1.clone(),
                times: devices.len(),
                stations: stations.clone(),
                explanations: explainer.explain(&address.0, &address.1),
            }),
            Some(_) => {}
        }
    }
    result.unexpected.sort_by_key(|unexpected| unexpected.found.line);
    mark_best(&mut result);
    result
}

/// Marks the cheapest pairs first; a station explains one device only.
fn mark_best(result: &mut Reconciliation) {
    let mut all: Vec<&mut Explanation> = Vec::new();
    let mut groups: Vec<usize> = Vec::new();
    let lists = result.unexpected.iter_mut().map(|unexpected| (1, &mut unexpected.explanations)).chain(
        result
            .duplicated
            .iter_mut()
            .map(|twice| (twice.times - twice.stations.len(), &mut twice.explanations)),
    );
    let mut room = Vec::new();
    for (group, (surplus, explanations)) in lists.enumerate() {
        room.push(surplus);
        for explanation in explanations {
            all.push(explanation);
            groups.push(group);
        }
    }
    let mut order: Vec<usize> = (0..all.len()).collect();
    order.sort_by(|a, b| all[*a].cost.total_cmp(&all[*b].cost).then(a.cmp(b)));
    let mut used = BTreeSet::new();
    for at in order {
        if room[groups[at]] > 0 && used.insert(all[at].station) {
            room[groups[at]] -= 1;
            all[at].best = true;
        }
    }
    for explanations in (result.unexpected.iter_mut().map(|unexpected| &mut unexpected.explanations))
        .chain(result.duplicated.iter_mut().map(|twice| &mut twice.explanations))
    {
        explanations.sort_by(|a, b| {
            b.best.cmp(&a.best).then(a.cost.total_cmp(&b.cost)).then(a.station.cmp(&b.station))
        });
    }
}

struct Explainer<'e> {
    site: &'e Site,
    plan: &'e AddressPlan,
    missing: &'e [usize],
    pairs: usize,
}

impl Explainer<'_> {
    fn explain(&mut self, class: &DeviceClass, found: &[u32]) -> Vec<Explanation> {
        let fields = fields_of(self.site, *class);
        let mut explanations = Vec::new();
        if fields.len() != found.len() {
            return explanations;
        }
        for &station in self.missing {
            self.pairs += 1;
            if self.pairs > MOST_PAIRS {
                break;
            }
            let address = &self.plan.stations[station];
            let (true, Some(meant)) = (address.class == *class, &address.numbers) else { continue };
            let mut causes = Vec::new();
            let mut cost = 0.0;
            let mut possible = true;
            for (index, field) in fields.iter().enumerate() {
                if meant[index] == found[index] {
                    continue;
                }
                match (settings(field, meant[index]), settings(field, found[index])) {
                    (Some(should), Some(is)) => {
                        let (cause, price) = compare(&should, &is);
                        causes.push((index, cause));
                        cost += price;
                    }
                    // The switches cannot show what was found: no slip of the hand.
                    _ => possible = false,
                }
            }
            if possible {
                explanations.push(Explanation { station, causes, cost, best: false });
            }
        }
        explanations.sort_by(|a, b| a.cost.total_cmp(&b.cost).then(a.station.cmp(&b.station)));
        explanations.truncate(MOST_EXPLANATIONS);
        explanations
    }
}

/// The likeliest single cause for one setting in place of another, and its cost.
fn compare(should: &SwitchSetting, is: &SwitchSetting) -> (Cause, f64) {
    match (should, is) {
        (SwitchSetting::Rotary { at: should, positions }, SwitchSetting::Rotary { at: is, .. }) => {
            rotary(should, is, *positions)
        }
        (SwitchSetting::Dip { on: should, first_switch }, SwitchSetting::Dip { on: is, .. }) => {
            let wrong = differing(should, is);
            let reversed: Vec<bool> = should.iter().rev().copied().collect();
            if let [switch] = wrong[..] {
                let number = first_switch + switch as u32;
                (Cause::WrongDip { switch: number, should_be_on: should[switch] }, 1.0)
            } else if wrong.len() == should.len() {
                (Cause::InvertedDip, 1.2)
            } else if reversed == *is {
                (Cause::ReversedDip, 1.3)
            } else {
                several(wrong.len())
            }
        }
        (SwitchSetting::Jumpers { fitted: should }, SwitchSetting::Jumpers { fitted: is }) => {
            let wrong = differing(should, is);
            match wrong[..] {
                [jumper] => {
                    (Cause::WrongJumper { jumper: jumper as u32 + 1, should_be_fitted: should[jumper] }, 1.0)
                }
                _ => several(wrong.len()),
            }
        }
        _ => (Cause::WrongKeyedNumber, 1.5),
    }
}

fn rotary(should: &[u32], is: &[u32], positions: u32) -> (Cause, f64) {
    let wrong: Vec<usize> = (0..should.len()).filter(|at| should[*at] != is[*at]).collect();
    match wrong[..] {
        [at] => {
            // The next position is the likelier slip.
            let apart = should[at].abs_diff(is[at]);
            let next = apart == 1 || apart == positions - 1;
            let cause = Cause::WrongRotary { switch: at as u32 + 1, set: is[at], should: should[at] };
            (cause, if next { 0.9 } else { 1.0 })
        }
        [first, second] if should[first] == is[second] && should[second] == is[first] => {
            (Cause::ExchangedRotaries, 0.8)
        }
        _ => several(wrong.len()),
    }
}

fn differing(should: &[bool], is: &[bool]) -> Vec<usize> {
    (0..should.len().min(is.len())).filter(|at| should[*at] != is[*at]).collect()
}

fn several(count: usize) -> (Cause, f64) {
    (Cause::SeveralSwitches { count: count as u32 }, 1.5 * count as f64)
}
