//! Branch boxes on the landings, so that no cable goes on from a dwelling to another.

use super::places::free_name;
use super::prices::by_price;
use super::rearranged::place_text;
use super::run_text::write_lengths;
use crate::bench::Bench;
use crate::candidate::{Candidate, metres, quoted, quoted_list};
use latchline_finding::Edit;
use latchline_site::catalogue::{BoxKind, BoxRole};
use latchline_site::model::{Place, Run, RunStop, Site, StationOwner};

/// Shortest spur from a branch box into a dwelling.
const SHORTEST_SPUR_M: f64 = 1.0;

/// What gets one branch box: neighbouring stops of a chain in one place.
struct Landing<'s> {
    place: &'s Place,
    /// Stops of each dwelling, by their places on the chain.
    dwellings: Vec<(usize, Vec<usize>)>,
}

/// The landings of a chain that leads to stations of dwellings alone; `None` of any other.
fn landings<'s>(site: &'s Site, run: &Run) -> Option<Vec<Landing<'s>>> {
    let mut landings: Vec<Landing<'_>> = Vec::new();
    for (stop, section) in run.sections.iter().enumerate() {
        let RunStop::Station(station) = section.to else { return None };
        let station = &site.stations[station];
        let StationOwner::Dwelling { dwelling, .. } = station.owner else { return None };
        let place = site.station_place(station);
        match landings.last_mut().filter(|landing| landing.place == place) {
            Some(landing) => match landing.dwellings.last_mut().filter(|(last, _)| *last == dwelling) {
                Some((_, stops)) => stops.push(stop),
                None => landing.dwellings.push((dwelling, vec![stop])),
            },
            None => landings.push(Landing { place, dwellings: vec![(dwelling, vec![stop])] }),
        }
    }
    Some(landings)
}

/// A chain through dwellings led from branch box to branch box instead, each where the first station of its landing was, with a run of its own
/// into every dwelling, as long as the chain was up to there.
pub(super) fn branch_box_for_each_landing(bench: &Bench<'_>, element: &str) -> Option<Candidate> {
    let site = bench.site;
    let run = site.runs.iter().find(|run| run.id.as_str() == element)?;
    let landings = landings(site, run)?;
    let ports = landings.iter().map(|landing| landing.dwellings.len()).max()?;
    let RunStop::Station(first) = run.sections.first()?.to else { return None };
    let family = &site.station_model(&site.stations[first]).family.value;
    let fitting = site.catalogue.boxes.values().filter(|model| {
        model.family.value == *family
            && model.role.value == BoxRole::BranchBox
            && model.kind.value == BoxKind::Transparent
            && model.ports.value as usize >= ports
    });
    let model = fitting.min_by(|a, b| by_price(&a.head, &b.head))?;
    let lengths = run.section_lengths_m();
    let way_m = |stop: usize| lengths[..=stop].iter().sum::<f64>();
    let (mut boxes, mut to_boxes_m, mut edit) = (Vec::new(), Vec::new(), Edit::default());
    let mut before_m = 0.0;
    for (number, landing) in (1..).zip(&landings) {
        let name = free_name(bench, "branch-boxes", &format!("T-{element}-{number}"));
        let here_m = way_m(landing.dwellings[0].1[0]);
        to_boxes_m.push(here_m - before_m);
        before_m = here_m;
        let place = place_text(site, landing.place);
        let text = format!("{{ model = {}{place} }}", quoted(&model.head.name));
        edit = edit.then(Edit::set(&["branch-boxes", &name], text));
        for (port, (_, stops)) in (1..).zip(&landing.dwellings) {
            let mut spur_m = vec![(way_m(stops[0]) - here_m).max(SHORTEST_SPUR_M)];
            spur_m.extend(stops[1..].iter().map(|stop| lengths[*stop]));
            let to: Vec<&str> =
                stops.iter().map(|stop| site.stop_id(run.sections[*stop].to).as_str()).collect();
            let spur_m: Vec<String> = spur_m.into_iter().map(metres).collect();
            let text = format!(
                "{{ from = {}, to = {}, cable = {}, lengths = {} }}",
                quoted(&format!("{name}.{port}")),
                quoted_list(to.iter().copied()),
                quoted(&run.cable.value),
                quoted_list(spur_m.iter().map(String::as_str)),
            );
            let spur = free_name(bench, "runs", &format!("{name}-{port}"));
            edit = edit.then(Edit::set(&["runs", &spur], text));
        }
        boxes.push(name);
    }
    let to = quoted_list(boxes.iter().map(String::as_str));
    let edit =
        Edit::set(&["runs", element, "to"], to).then(write_lengths(bench, element, &to_boxes_m)).then(edit);
    Some(Candidate::new("branch-box-for-each-landing", edit))
}
