//! What is promised of the next reading is what the answer says once it is given.

use crate::{checked, demo};

use latchline_finding::Sources;
use latchline_locate::{Options, Plant, Quantity, Rates, good_reading, locate, place_name, section_ends};
use latchline_network::Layout;
use latchline_site::model::Site;
use latchline_site::{builtin_catalogue, resolve};

/// A house of one dwelling: three stations on one cable, 10 m each.
const VILLA: &str = r#"
[site]
title = "Villa"
family = "ostrel-48"
indoor_station = "ostrel-v7"
door_station = "ostrel-dv1"
cable = "pair-0.8"
[buildings]
V = { floors = ["G", "1", "2"] }
[supplies]
PS = { model = "ostrel-ps-60", place = "V/G" }
[distributors]
D1 = { model = "ostrel-d4", place = "V/G" }
[entrances]
door = { role = "main", place = "V/G", outdoors = true }
[dwellings]
V-1 = { place = "V/G", extensions = ["ostrel-v4", "ostrel-v4"] }
[runs]
feed = { from = "PS", to = "D1", cable = "flex-1.5", length = "1 m" }
house = { from = "D1.1", to = ["V-1", "V-1:2", "V-1:3"], first = "10 m", spacing = "10 m" }
front = { from = "D1.2", to = "door", cable = "outdoor-0.8", length = "12 m" }
"#;

/// Eight dwellings on two chains.
const BLOCK: &str = r#"
[site]
title = "Block"
family = "ostrel-48"
indoor_station = "ostrel-v7"
door_station = "ostrel-dv1"
cable = "pair-0.8"
[buildings]
B = { floors = ["G", "1", "2", "3"] }
[supplies]
PS = { model = "ostrel-ps-120", place = "B/G" }
[distributors]
D1 = { model = "ostrel-d4", place = "B/G" }
[entrances]
door = { role = "main", place = "B/G", outdoors = true }
[dwellings]
"B-1..B-8" = { place = "B/G", per_floor = 2 }
[runs]
feed = { from = "PS", to = "D1", cable = "flex-1.5", length = "2 m" }
left = { from = "D1.1", to = "B-1..B-4", first = "12 m", spacing = "6 m" }
right = { from = "D1.2", to = "B-5..B-8", first = "18 m", spacing = "6 m" }
front = { from = "D1.3", to = "door", cable = "outdoor-0.8", length = "10 m" }
"#;

fn site(text: &str) -> Site {
    let mut sources = Sources::new();
    let (name, catalogue) = builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    let site = sources.add("site.toml", text);
    resolve(&sources, site, &[catalogue]).site.unwrap()
}

/// Asks, and gives the reading that stands for every outcome of the proposed reading. An outcome's share is that of its first cause, or of all that no meter sees.
fn holds(site: &Site, items: &[&str]) {
    let layout = Layout::new(site);
    let plant = Plant::new(site, &layout);
    let before = checked(&plant, items);
    assert!(before.problems.is_empty(), "{:?}", before.problems);
    let (rates, options) = (Rates::built_in(), Options::default());
    let found = locate(&plant, &before.evidence, &rates, &options);
    let next = found.next.as_ref().expect("a reading is proposed");
    assert!(next.meanings.len() > 1, "{items:?}");
    for meaning in &next.meanings {
        let mut evidence = before.evidence.clone();
        evidence.measured.push(good_reading(next.quantity.clone(), meaning.middle));
        let after = locate(&plant, &evidence, &rates, &options);
        let promised = meaning.causes[0];
        let share: f64 = if found.is_seen(promised) {
            assert_eq!(after.cause(0).0.cause, found.cause(promised).0.cause, "{items:?} {meaning:?}");
            after.ranking.causes[0].probability
        } else {
            let unseen = |place: &usize| !after.is_seen(*place);
            let all: Vec<usize> = (0..after.ranking.causes.len()).filter(unseen).collect();
            all.iter().map(|place| after.ranking.causes[*place].probability).sum()
        };
        assert!((share - meaning.shares[0]).abs() < 0.15, "{items:?} {meaning:?}: {share}");
    }
}

#[test]
fn the_middle_of_each_outcome_leads_where_it_was_promised() {
    let (villa, block, demo) = (site(VILLA), site(BLOCK), demo());
    holds(&villa, &["V-1:3@ringing=34V"]);
    holds(&block, &["B-4@ringing=38V"]);
    holds(&block, &["B-8=dead", "B-5=works"]);
    holds(&demo, &["A-15@ringing=33V", "A-15=restarts"]);
    holds(&demo, &["A-D2.2=47.6V", "A-15@ringing=43.9V"]);
}

/// What proves the mend never lies in a range that a reading of the fault lies in, and where a station restarts it is read while it rings.
#[test]
fn the_mend_is_proved_where_the_fault_showed() {
    let block = site(BLOCK);
    let layout = Layout::new(&block);
    let plant = Plant::new(&block, &layout);
    let (rates, options) = (Rates::built_in(), Options::default());
    let asked = |items: &[&str]| {
        let evidence = checked(&plant, items).evidence;
        (locate(&plant, &evidence, &rates, &options), evidence)
    };
    let (found, _) = asked(&["B-4=restarts"]);
    let proof = found.proof.expect("it is a fault of the wiring");
    assert!(proof.quantity.state().is_some_and(|state| !state.calls.is_empty()), "{proof:?}");
    // 47.2 V in standby is within what is planned there, and what the joint left.
    let (found, evidence) = asked(&["D1=47.9V", "B-4=47.2V", "B-4@ringing=38V"]);
    let proof = found.proof.expect("it is a fault of the wiring");
    for one in evidence.measured.iter().filter(|one| one.quantity == proof.quantity) {
        assert!(one.value < proof.low || one.value > proof.high, "{one:?} {proof:?}");
    }
}

/// A door station alone on its run that restarts: a port of constant current behind a short leaves it dark, so a short is no reason, and a meter tells a
/// joint from a unit that is broken.
#[test]
fn a_door_station_that_restarts_is_no_short_circuit() {
    let block = site(BLOCK);
    let layout = Layout::new(&block);
    let plant = Plant::new(&block, &layout);
    let (rates, options) = (Rates::built_in(), Options::default());
    let evidence = checked(&plant, &["door=restarts"]).evidence;
    let found = locate(&plant, &evidence, &rates, &options);
    let (cause, _) = found.cause(0);
    assert_ne!(cause.cause.kind.name(), "short", "{cause:?}");
    let evidence = checked(&plant, &["door=restarts", "D1.3=47.7V"]).evidence;
    let found = locate(&plant, &evidence, &rates, &options);
    assert!(found.is_sure || found.next.is_some(), "a reading at the door tells them apart");
}

/// Somebody who can read drops only, one place after the other: a joint somewhere in a chain is halved by the drop over several sections, while that over
/// one section tells of that section alone (halving: common practice, no source).
#[test]
fn where_only_drops_can_be_read_one_over_several_sections_is_proposed() {
    let block = site(BLOCK);
    let layout = Layout::new(&block);
    let plant = Plant::new(&block, &layout);
    let mut evidence = checked(&plant, &["B-4@ringing=38V"]).evidence;
    let (rates, options) = (Rates::built_in(), Options::default());
    let over = loop {
        let found = locate(&plant, &evidence, &rates, &options);
        let next = found.next.expect("a drop is left to be read");
        if let Quantity::Drop { from, to, .. } = next.quantity {
            break (from, to);
        }
        evidence.out_of_reach.push(next.quantity);
    };
    let over = (place_name(&block, over.0), place_name(&block, over.1));
    let is_section = |run: usize, section: usize| section_ends(&block, run, section) == over;
    let is_one = |run: usize| (0..block.runs[run].sections.len()).any(|section| is_section(run, section));
    assert!(!(0..block.runs.len()).any(is_one), "{over:?}");
}
