//! The declared design space in words: the bound holds within it and nowhere else.

use crate::branches::{MOST_BRANCHED, NEAR_BRANCH};
use crate::hub::{MOST_CASCADED, NEAR_HUBS};
use crate::instance::Instance;
use crate::runs::{NEAR_BOXES, hangs_on_outputs};
use latchline_finding::{Both, Figure, Language, Unit};
use latchline_words::design::SpaceWords;

/// The space, line by line.
pub fn describe(instance: &Instance<'_>, orders: usize, most_supplies: usize) -> Vec<Both> {
    let limits = &instance.limits;
    let small = instance.items.len() <= crate::order::MOST_PERMUTED;
    let how = if small { SpaceWords::Small } else { SpaceWords::AlongTheWays };
    let tried = if orders == 1 { SpaceWords::OneOrder } else { SpaceWords::Orders { orders } };
    let mut lines = vec![
        SpaceWords::Order { how: &how.both(), tried: &tried.both() }.both(),
        SpaceWords::Runs.both(),
        SpaceWords::OwnRuns.both(),
        SpaceWords::Trunks.both(),
        SpaceWords::Cable.both(),
    ];
    if hangs_on_outputs(instance) {
        lines.push(SpaceWords::OnOutputs.both());
    }
    let cascades = instance.limits.cascade >= 2 && instance.box_places.len() > 1;
    if instance.items.len() <= MOST_CASCADED && cascades {
        lines.push(SpaceWords::Cascade { near: NEAR_HUBS }.both());
    }
    if instance.limits.branches && !instance.branch_boxes.is_empty() {
        let kinds: Vec<&str> = instance.branch_boxes.iter().map(|kind| kind.name.as_str()).collect();
        let words = SpaceWords::Branches { most: MOST_BRANCHED, boxes: &kinds.join(", "), near: NEAR_BRANCH };
        lines.push(words.both());
    }
    if instance.box_places.len() > NEAR_BOXES {
        lines.push(SpaceWords::NearBoxes { near: NEAR_BOXES }.both());
    }
    lines.push(match &instance.isolator {
        Some(isolator) => SpaceWords::Supplies { isolator: &isolator.name, most: most_supplies }.both(),
        None => SpaceWords::OneSupply.both(),
    });
    let metres = |decimetres: u64| usize::try_from(decimetres / 10).unwrap_or(usize::MAX);
    let mut kept = Vec::new();
    if limits.stations < usize::MAX / 2 {
        kept.push(SpaceWords::Stations { stations: limits.stations });
    }
    if limits.dwellings < usize::MAX / 2 {
        kept.push(SpaceWords::Dwellings { dwellings: limits.dwellings });
    }
    if limits.longest_dm < u64::MAX / 4 {
        kept.push(SpaceWords::MetresToEnd { metres: metres(limits.longest_dm) });
    }
    if limits.total_dm < u64::MAX / 4 {
        kept.push(SpaceWords::MetresOfCable { metres: metres(limits.total_dm) });
    }
    if limits.margin_v > 0.0 {
        lines.push(SpaceWords::Margin { volts: Figure::new(limits.margin_v, Unit::Volt) }.both());
    }
    if instance.survey.settings.no_warnings.as_ref().is_some_and(|strict| strict.value) {
        lines.push(SpaceWords::NoWarnings.both());
    }
    if !instance.survey.locked.is_empty() {
        let decisions: Vec<&str> =
            instance.survey.locked.iter().map(|locked| locked.written.value.as_str()).collect();
        lines.push(SpaceWords::Locked { decisions: &decisions.join("; ") }.both());
    }
    if !kept.is_empty() {
        let list = |language| kept.iter().map(|one| one.say(language)).collect::<Vec<_>>().join(", ");
        let limits = &Both::new(list(Language::English), list(Language::German));
        lines.push(SpaceWords::AtMost { limits }.both());
    }
    let wires: Vec<&str> = instance.wires.iter().map(|wire| wire.name.as_str()).collect();
    lines.push(SpaceWords::Cables { cables: &wires.join(", ") }.both());
    let boxes: Vec<&str> = instance.distributors.iter().map(|kind| kind.name.as_str()).collect();
    let supplies: Vec<&str> = instance.supplies.iter().map(|kind| kind.name.as_str()).collect();
    let words = SpaceWords::Parts { distributors: &boxes.join(", "), supplies: &supplies.join(", ") };
    lines.push(words.both());
    lines
}
