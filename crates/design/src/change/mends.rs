//! What is added to a change that fails.

use super::installed::{Installed, Run, Stop};
use super::ways::{Way, Ways, on_port};
use crate::instance::Instance;
use crate::judge::{Help, Rejection};
use crate::money::Amount;
use crate::toml_text::{list, quoted};
use latchline_site::model::Site;
use latchline_words::design::StepWords;

/// What may mend a change that fails: other cables on the runs at fault and on trunks, larger supplies, the last
/// dwelling of such a run on a free port.
pub fn mends(instance: &Instance<'_>, installed: &Installed, site: &Site, rejection: &Rejection) -> Ways {
    let mut ways = Vec::new();
    let blamed = |run: &&Run| {
        let has = |stop: &Stop| matches!(stop, Stop::Item(item) if rejection.blamed.iter().any(|all| all.contains(item)));
        run.stops.iter().any(has) || run.stops.iter().all(|stop| matches!(stop, Stop::Box(_)))
    };
    for run in installed.runs.iter().filter(blamed) {
        let ohm =
            |name: &str| instance.wires.iter().find(|wire| wire.name == name).map(|wire| wire.ohm_per_m);
        let total_dm = run.lengths_m.iter().sum::<f64>() * 10.0;
        let environment = run.surveyed(instance, installed).map(|sections| sections.environment);
        for wire in &instance.wires {
            let is_thinner = ohm(&run.cable).is_some_and(|ohm| wire.ohm_per_m >= ohm);
            if wire.name == run.cable
                || (is_thinner && rejection.help != Help::OtherRuns)
                || environment.is_some_and(|environment| !wire.environments.contains(&environment))
            {
                continue;
            }
            let cost = total_dm.ceil() as Amount * wire.per_dm;
            let words = StepWords::PulledAnew { run: &run.name, cable: &wire.name, old: &run.cable };
            let mut way = Way::new(words.both(), cost);
            way.set(&["runs", &run.name, "cable"], quoted(&wire.name));
            let mut changed = installed.clone();
            for target in changed.runs.iter_mut().filter(|target| target.name == run.name) {
                target.cable.clone_from(&wire.name);
                target.existing = false;
            }
            if run.existing {
                way.set(&["runs", &run.name, "existing"], String::from("false"));
            }
            ways.push((changed, way));
        }
    }
    for supply in &site.supplies {
        for kind in instance.supplies.iter().filter(|kind| kind.name != supply.model.value) {
            let id = supply.id.as_str();
            let words = StepWords::OtherSupply { supply: id, model: &kind.name, old: &supply.model.value };
            let mut way = Way::new(words.both(), kind.cost);
            way.set(&["supplies", id, "model"], quoted(&kind.name));
            ways.push((installed.clone(), way));
        }
    }
    moved(instance, installed, rejection, &mut ways);
    ways
}

/// The last dwelling of a run at fault, moved to a free port.
fn moved(instance: &Instance<'_>, installed: &Installed, rejection: &Rejection, ways: &mut Ways) {
    for at in 0..installed.runs.len() {
        let run = &installed.runs[at];
        let Some(items) = run.items().filter(|items| items.len() > 1) else { continue };
        if run.existing || !items.iter().any(|item| rejection.blamed.iter().any(|all| all.contains(item))) {
            continue;
        }
        let item = items[items.len() - 1];
        let stations = instance.items[item].models.len();
        let keep = run.stops.len() - stations;
        let mut shorter = installed.clone();
        shorter.runs[at].stops.truncate(keep);
        shorter.runs[at].lengths_m.truncate(keep);
        let (names, lengths_m) =
            (shorter.runs[at].names(instance, &shorter), shorter.runs[at].lengths_m.clone());
        for target in 0..shorter.boxes.len() {
            let (Some(place), Some(port)) =
                (shorter.boxes[target].place, shorter.free_ports(instance, target).first().copied())
            else {
                continue;
            };
            for wire in 0..instance.wires.len() {
                let Some((changed, mut way)) = on_port(instance, &shorter, (target, place, port), item, wire)
                else {
                    continue;
                };
                way.words = StepWords::MovedFrom { run: &run.name, then: &way.words }.both();
                way.set(&["runs", &run.name, "to"], list(&names));
                way.lengths(&run.name, &lengths_m);
                ways.push((changed, way));
            }
        }
    }
}
