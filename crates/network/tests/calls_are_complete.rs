//! The calls that the search for the worst set considers, against every call that a site admits, listed here
//! from the text of the site and nothing else.
//!
//! A call that the search leaves out must be covered: the search has one between the same two parties whose
//! stations draw at least as much, station by station and kind by kind, and need at least as high a voltage.
//! By the theorem that voltages fall when a constant-power or constant-current load grows (stated and tested
//! in the flow solver) it cannot be worse. Between the same two parties it excludes the same other calls.

use latchline_finding::{Sources, StateKind};
use latchline_network::demand::{Activity, station_demand};
use latchline_network::{Corner, Layout, Phase, StateSpace};
use latchline_site::model::Site;
use latchline_site::{builtin_catalogue, resolve};
use proptest::prelude::*;
use std::collections::BTreeSet;

/// What a door station does about its lock.
const LOCKS: [&str; 3] = [
    // Held by the door station itself.
    ", lock = { model = \"strike-12\", cable = \"flex-0.75\", length = \"4 m\" }",
    // A dry contact only.
    ", lock = { model = \"gate-contact\" }",
    "",
];

/// Who is called: as it is written, the numbers of the dwellings meant, whether the desk is meant.
const SCOPES: [(&str, &[usize], bool); 4] = [
    ("\"everyone\"", &[0, 1, 2, 3], true),
    ("\"F0\"", &[0], false),
    ("\"F1\", \"F3\"", &[1, 3], false),
    ("\"F2\", \"Desk\"", &[2], true),
];

#[derive(Debug, Clone)]
struct Draw {
    /// Of each entrance: lock, scope.
    entrances: Vec<(usize, usize)>,
    /// Of each of four dwellings: whether it has a second station.
    extensions: [bool; 4],
    /// Scope of the desk.
    desk: usize,
}

fn draws() -> impl Strategy<Value = Draw> {
    (prop::collection::vec((0..3_usize, 0..4_usize), 1..=3), any::<[bool; 4]>(), 0..4_usize)
        .prop_map(|(entrances, extensions, desk)| Draw { entrances, extensions, desk })
}

impl Draw {
    fn site(&self) -> Site {
        let mut text = String::from(
            "[site]\ntitle = \"T\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v7\"\n\
             door_station = \"ostrel-dv1\"\nmanagement_station = \"ostrel-m1\"\ncable = \"pair-0.8\"\n\
             [supplies]\nPS = { model = \"ostrel-ps-120\" }\n[distributors]\nD1 = { model = \"ostrel-d8t\" }\n\
             [entrances]\n",
        );
        let mut stops = Vec::new();
        for (number, (lock, scope)) in self.entrances.iter().enumerate() {
            let role = if number == 0 { "main" } else { "secondary" };
            let (calls, lock) = (SCOPES[*scope].0, LOCKS[*lock]);
            text.push_str(&format!("E{number} = {{ role = \"{role}\", calls = [{calls}]{lock} }}\n"));
            stops.push(format!("\"E{number}\""));
        }
        text.push_str(&format!(
            "[management]\nDesk = {{ calls = [{}] }}\n[dwellings]\n",
            SCOPES[self.desk].0
        ));
        stops.push(String::from("\"Desk\""));
        for (number, extension) in self.extensions.iter().enumerate() {
            let more = if *extension { "extensions = [\"ostrel-v4\"]" } else { "" };
            text.push_str(&format!("F{number} = {{ {more} }}\n"));
            stops.push(format!("\"F{number}\""));
            if *extension {
                stops.push(format!("\"F{number}:2\""));
            }
        }
        text.push_str(&format!(
            "[runs]\nfeed = {{ from = \"PS\", to = \"D1\", length = \"1 m\" }}\n\
             all = {{ from = \"D1.1\", to = [{}], spacing = \"3 m\" }}\n",
            stops.join(", ")
        ));
        let mut sources = Sources::new();
        let (name, catalogue) = builtin_catalogue();
        let catalogue = sources.add(name, catalogue);
        let file = sources.add("site", text.clone());
        let resolved = resolve(&sources, file, &[catalogue]);
        resolved.site.unwrap_or_else(|| panic!("{:#?}\n{text}", resolved.findings))
    }

    /// Every call as what each named station does: the bell of all stations of the called party, then speech
    /// with each of them, without release and, where the door holds its lock, with it.
    fn every_call(&self) -> Vec<Call> {
        let mut calls = Vec::new();
        let mut from = |caller: &str, releases: bool, scope: usize| {
            let (_, dwellings, desk) = SCOPES[scope];
            let mut called: Vec<Vec<String>> =
                dwellings.iter().map(|number| self.stations(*number)).collect();
            if desk && caller != "Desk" {
                called.push(vec![String::from("Desk")]);
            }
            for stations in called {
                let mut ringing = vec![(caller.to_string(), Activity::Ringing)];
                ringing.extend(stations.iter().map(|station| (station.clone(), Activity::Ringing)));
                calls.push(Call { busy: ringing, views: false });
                for station in stations {
                    let talks = |door| vec![(caller.to_string(), door), (station.clone(), Activity::Talking)];
                    calls.push(Call { busy: talks(Activity::Talking), views: false });
                    if releases {
                        calls.push(Call { busy: talks(Activity::Releasing), views: false });
                    }
                    if caller != "Desk" && station != "Desk" {
                        calls.push(Call { busy: talks(Activity::Talking), views: true });
                    }
                }
            }
        };
        for (number, (lock, scope)) in self.entrances.iter().enumerate() {
            from(&format!("E{number}"), *lock == 0, *scope);
        }
        from("Desk", false, self.desk);
        calls
    }

    fn stations(&self, dwelling: usize) -> Vec<String> {
        let mut stations = vec![format!("F{dwelling}")];
        if self.extensions[dwelling] {
            stations.push(format!("F{dwelling}:2"));
        }
        stations
    }
}

struct Call {
    busy: Vec<(String, Activity)>,
    /// A resident looks at the door of their own accord; else a call.
    views: bool,
}

impl Call {
    /// The two that are busy with it: extensions belong to their dwelling.
    fn parties(&self) -> BTreeSet<&str> {
        parties(self.busy.iter().map(|(station, _)| station.as_str()))
    }
}

fn parties<'a>(stations: impl Iterator<Item = &'a str>) -> BTreeSet<&'a str> {
    stations.map(|station| station.split(':').next().unwrap_or(station)).collect()
}

/// Whether a call of the search is nowhere lighter than `call`.
fn covers(site: &Site, option: &[(usize, Activity)], call: &Call) -> bool {
    let names = option.iter().map(|(station, _)| site.stations[*station].id.as_str());
    parties(names) == call.parties()
        && site.stations.iter().enumerate().all(|(index, station)| {
            let theirs = call.busy.iter().find(|(name, _)| *name == station.id.as_str());
            let theirs = theirs.map_or(Activity::Standby, |(_, activity)| *activity);
            let ours = option.iter().find(|(busy, _)| *busy == index);
            let ours = ours.map_or(Activity::Standby, |(_, activity)| *activity);
            let demand = |activity| station_demand(site, station, activity, true, Corner::Adverse);
            let (ours_draws, theirs_draws) = (demand(ours), demand(theirs));
            ours_draws.power_w >= theirs_draws.power_w
                && ours_draws.current_a >= theirs_draws.current_a
                && ours_draws.conductance_s >= theirs_draws.conductance_s
                && (ours.is_in_use() || !theirs.is_in_use())
        })
}

fn phase(space: &StateSpace, kind: StateKind) -> Option<&Phase> {
    space.phases.iter().find(|phase| phase.kind == kind)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_call_is_considered_or_covered(draw in draws()) {
        let site = draw.site();
        let layout = Layout::new(&site);
        let space = StateSpace::new(&site, &layout);
        let calls = draw.every_call();
        for (kind, views) in [(StateKind::Call, false), (StateKind::SelfView, true)] {
            let meant: Vec<&Call> = calls.iter().filter(|call| call.views == views).collect();
            let options = phase(&space, kind).map_or(&[][..], |phase| &phase.options);
            prop_assert_eq!(options.is_empty(), meant.is_empty());
            for call in &meant {
                let covered = options.iter().any(|option| covers(&site, &option.busy, call));
                prop_assert!(covered, "{:?} is nowhere", call.busy);
            }
            // And nothing is made up: every call of the search is one of the list, figure for figure.
            for option in options {
                let named: BTreeSet<(String, Activity)> =
                    option.busy.iter().map(|(station, activity)| (site.stations[*station].id.to_string(), *activity)).collect();
                prop_assert!(meant.iter().any(|call| call.busy.iter().cloned().collect::<BTreeSet<_>>() == named), "{named:?}");
            }
        }
    }
}
