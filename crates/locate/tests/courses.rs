//! What the pictures of an answer show: the voltage along the way, and how the probabilities moved.

use crate::{checked, with_demo};
use latchline_finding::Sources;
use latchline_locate::{Course, Kind, Options, Plant, Rates, courses, locate, moves, place_name};
use latchline_network::{Corner, Layout};
use latchline_site::{builtin_catalogue, resolve};

/// One station behind 40 m of cable.
const COTTAGE: &str = r#"
[site]
title = "Cottage"
family = "ostrel-48"
indoor_station = "ostrel-v7"
door_station = "ostrel-dv1"
cable = "pair-0.8"
[buildings]
V = { floors = ["G"] }
[supplies]
PS = { model = "ostrel-ps-60", place = "V/G" }
[distributors]
D1 = { model = "ostrel-d4", place = "V/G" }
[entrances]
door = { role = "main", place = "V/G", outdoors = true }
[dwellings]
V-1 = { place = "V/G" }
[runs]
feed = { from = "PS", to = "D1", cable = "flex-1.5", length = "1 m" }
house = { from = "D1.1", to = ["V-1"], length = "40 m" }
front = { from = "D1.2", to = "door", cable = "outdoor-0.8", length = "10 m" }
"#;

/// Ohm's law, and that the station takes its 6 W behind a rectifier that drops 1.4 V whatever reaches it (as the built-in catalogue has it): what is lost
/// on the way, times what is left behind the rectifier, is that power times the resistance of cable and joint. Over the joint that is a straight line,
/// whose slope is the power and which crosses zero at the cable's own resistance. Closed form, no source needed.
#[test]
fn a_joint_loses_what_ohms_law_says() {
    let mut sources = Sources::new();
    let (name, catalogue) = builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    let file = sources.add("site.toml", COTTAGE);
    let site = resolve(&sources, file, &[catalogue]).site.unwrap();
    let layout = Layout::new(&site);
    let plant = Plant::new(&site, &layout);
    let at_joint = |reading: &str| {
        let asked = checked(&plant, &[reading]);
        assert!(asked.problems.is_empty(), "{:?}", asked.problems);
        let found = locate(&plant, &asked.evidence, &Rates::built_in(), &Options::default());
        let is_joint = |place: &usize| {
            let (hypothesis, _) = found.cause(*place);
            hypothesis.cause.kind == Kind::Joint
                && hypothesis.cause.element.name(&site) == "house: D1.1 – V-1"
        };
        let joint = (0..found.ranking.causes.len()).find(is_joint).unwrap();
        let joint_ohm = found.cause(joint).1.size.unwrap().best;
        let all = courses(&plant, &asked.evidence, &found, joint);
        let way = all.iter().find(|way| names(&plant, way).last().is_some_and(|name| name == "V-1")).unwrap();
        assert_eq!(names(&plant, way), ["PS", "D1", "V-1"]);
        let volts = |stop: usize| way.stops[stop].with_cause_v.unwrap()[1];
        [joint_ohm, (volts(2) - 1.4) * (volts(1) - volts(2))]
    };
    let station = site.stations.iter().position(|station| station.id.as_str() == "V-1").unwrap();
    assert_eq!(station, 0, "the reckoning above takes the first station for V-1");
    let [small, middle, large] = ["V-1@ringing=46V", "V-1@ringing=44V", "V-1@ringing=40V"].map(at_joint);
    assert!(large[0] > 2.0 * small[0], "{small:?} {large:?}");
    let power_w = (large[1] - small[1]) / (large[0] - small[0]);
    let expected = small[1] + power_w * (middle[0] - small[0]);
    assert!((middle[1] - expected).abs() < 1e-6 * expected, "{small:?} {middle:?} {large:?}");
    // A call is reckoned at night: 0.1 W more for its light.
    assert!((power_w - 6.1).abs() < 1e-6, "{power_w}");
    let at = layout.station[0].unwrap();
    let stage = layout.stage(at);
    let ohm = |node: usize| stage.resistance_ohm[Corner::Nominal as usize][node];
    let cable_ohm = ohm(at.node) + ohm(stage.parent[at.node] as usize);
    // Copper is somewhat warmer than at the nominal 20 degrees.
    let crossing_ohm = small[1] / power_w - small[0];
    assert!((crossing_ohm / cable_ohm - 1.0).abs() < 0.05, "{crossing_ohm} {cable_ohm}");
}

fn names(plant: &Plant<'_>, way: &Course) -> Vec<String> {
    way.stops.iter().map(|stop| place_name(plant.site, stop.at)).collect()
}

/// The readings of the worked example: the way to the flat is followed in both states, and what was read there is on it.
#[test]
fn the_way_to_what_was_read_is_followed() {
    with_demo(|plant| {
        let asked = checked(plant, &["A-15=comes-and-goes", "A-D2.2=47.6V", "A-15@ringing=43.9V"]);
        let found = locate(plant, &asked.evidence, &Rates::built_in(), &Options::default());
        let all = courses(plant, &asked.evidence, &found, 0);
        assert_eq!(all.len(), 2, "one way in standby, the same while A-15 is called");
        for way in &all {
            let names = names(plant, way);
            assert_eq!(names.first().map(String::as_str), Some("A-PS"));
            assert!(names.iter().any(|name| name == "A-15"), "{names:?}");
            assert!(way.stops.is_sorted_by(|a, b| a.distance_m <= b.distance_m));
            for stop in &way.stops {
                let (least_v, most_v) = stop.planned_v.unwrap();
                assert!(least_v <= most_v);
                let [least_v, likeliest_v, most_v] = stop.with_cause_v.unwrap();
                assert!(least_v <= likeliest_v && likeliest_v <= most_v);
            }
        }
        let flat = all[1].stops.iter().find(|stop| place_name(plant.site, stop.at) == "A-15").unwrap();
        assert_eq!(flat.read_v.len(), 1);
        let (read_v, [least_v, most_v]) = flat.read_v[0];
        assert_eq!(read_v, 43.9);
        // A good meter: 0.5 % and a few digits.
        assert!(least_v < 43.9 - 0.2 && most_v > 43.9 + 0.2 && most_v - least_v < 1.0);
        let [.., likeliest_v, _] = flat.with_cause_v.unwrap();
        assert!(
            (likeliest_v - 43.9).abs() < 0.5,
            "the likeliest cause explains what was read: {likeliest_v}"
        );
        assert!(flat.planned_v.unwrap().0 > 44.5, "and the plan does not");
    });
}

/// Before anything is known each place has what its causes have in the table of rates; at the end stands the answer itself.
#[test]
fn the_steps_lead_from_the_rates_to_the_answer() {
    with_demo(|plant| {
        let (rates, options) = (Rates::built_in(), Options::default());
        let asked = checked(plant, &["A-15=comes-and-goes", "A-D2.2=47.6V", "A-15@ringing=43.9V"]);
        let found = locate(plant, &asked.evidence, &rates, &options);
        let steps = moves(plant, &asked.evidence, &rates, &options, &found);
        let known: Vec<(bool, usize)> = steps.iter().map(|step| (step.is_told, step.readings)).collect();
        assert_eq!(known, [(false, 0), (true, 0), (true, 1), (true, 2)]);
        let prior: f64 = found.hypotheses.iter().map(|one| one.prior).sum();
        let first = &steps[0];
        for share in &first.places {
            let of_place: f64 = found
                .hypotheses
                .iter()
                .filter(|one| latchline_locate::Place::of(plant, one.cause.element) == share.place)
                .map(|one| one.prior)
                .sum();
            let expected = (1.0 - first.none_of_these) * of_place / prior;
            assert!((share.probability - expected).abs() < 1e-9, "{:?}", share.place);
        }
        let last = steps.last().unwrap();
        assert_eq!(last.places, found.places);
        assert_eq!(last.none_of_these, found.ranking.none_of_these);
        for step in &steps {
            // What has less than a hundred-thousandth of the likeliest is left out, cause by cause.
            let all: f64 = step.places.iter().map(|share| share.probability).sum();
            assert!((all + step.none_of_these - 1.0).abs() < 1e-3, "{known:?}: {all} {}", step.none_of_these);
        }
    });
}
