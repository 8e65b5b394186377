//! Where a cause stands on the sheet of faults, and what is read there.

use crate::kind::Element;
use crate::place::Place;
use crate::plant::Plant;
use crate::predict::node;
use crate::quantity::Quantity;
use latchline_finding::StateKind;
use latchline_network::readings::ReadingPlace;
use latchline_site::model::{RunStart, RunStop, Site};
use std::collections::BTreeMap;

/// Where a cause stands: at the run that it lies on, of a box or supply at that; `None` where at none of these.
pub(super) fn place_of(plant: &Plant<'_>, element: Element) -> Option<Element> {
    let element = match element {
        Element::Entrance(entrance) => Element::Station(plant.site.entrances[entrance].station),
        Element::Box(_) | Element::Supply(_) => return Some(element),
        other => other,
    };
    match Place::of(plant, element) {
        Place::Section { run, .. } | Place::Run(run) => Some(Element::Run(run)),
        Place::Element(Element::Port { box_index, .. }) => Some(Element::Box(box_index)),
        Place::Element(_) => None,
    }
}

/// What is read at a run, a box or a supply: voltage where it begins and where it ends, current, loop, insulation.
pub(super) fn readings_of(
    plant: &Plant<'_>,
    element: Element,
    known: &BTreeMap<&Quantity, usize>,
    sound: &dyn Fn(usize) -> f64,
) -> [Option<Quantity>; 5] {
    let voltage = |at: ReadingPlace| Some(Quantity::Voltage { at, state: StateKind::StandbyDay.into() });
    let current = |at: ReadingPlace| Some(Quantity::Current { at, state: StateKind::StandbyDay.into() });
    let site = plant.site;
    match element {
        Element::Run(run) => {
            let start = site.runs[run].from.into();
            let end = site.runs[run].sections.last().and_then(|section| match section.to {
                RunStop::Station(station) => voltage(ReadingPlace::Station(station)),
                RunStop::BoxInput(index) => voltage(ReadingPlace::BoxInput(index)),
                RunStop::BoxLink(_) => None,
            });
            let alone = [Some(Quantity::Loop { run }), Some(Quantity::Insulation { run })];
            let [loop_of, insulation] = alone;
            [voltage(start), end, current(ReadingPlace::Run(run)), loop_of, insulation]
        }
        Element::Box(index) => {
            let run = first_run(site, index);
            let end = run.and_then(|run| voltage(site.runs[run].from.into()));
            let out = current(ReadingPlace::BoxOutput(index)).filter(|one| known.contains_key(one));
            let current = out.or_else(|| run.and_then(|run| current(ReadingPlace::Run(run))));
            [voltage(ReadingPlace::BoxInput(index)), end, current, None, None]
        }
        Element::Supply(supply) => {
            let at = ReadingPlace::Supply(supply);
            let stage = node(plant, at).map(|at| at.stage);
            let mut farthest: Option<(f64, &Quantity)> = None;
            for (quantity, number) in known {
                let Quantity::Voltage { at: place, .. } = quantity else { continue };
                let is_station = matches!(place, ReadingPlace::Station(_));
                if !is_station || node(plant, *place).map(|at| at.stage) != stage {
                    continue;
                }
                let value = sound(*number);
                if farthest.is_none_or(|(least, _)| value < least) {
                    farthest = Some((value, *quantity));
                }
            }
            [voltage(at), farthest.map(|(_, quantity)| quantity.clone()), current(at), None, None]
        }
        _ => [None, None, None, None, None],
    }
}

/// The run at the first port of a box that has one.
fn first_run(site: &Site, index: usize) -> Option<usize> {
    let port_of = |run: usize| match site.runs[run].from {
        RunStart::Port { box_index, port } if box_index == index => Some(port),
        _ => None,
    };
    (0..site.runs.len()).filter(|run| port_of(*run).is_some()).min_by_key(|run| port_of(*run))
}
