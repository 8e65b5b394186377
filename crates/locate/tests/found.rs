//! Faults are found, with closed forms for their size.

use crate::{located, with_demo};
use latchline_locate::{Element, Kind, Plant};

fn has(plant: &Plant<'_>, element: Element, run: &str) -> bool {
    element.run().is_some_and(|index| plant.site.runs[index].id.as_str() == run)
}

/// A loop that is shorted at a part of its length reads that part of its resistance (the rule of every loop test: distance is
/// resistance over resistance per metre).
#[test]
fn a_short_is_placed_by_the_loop_that_is_read() {
    with_demo(|plant| {
        let run = plant.site.runs.iter().position(|run| run.id.as_str() == "A-gate").unwrap();
        let section = &plant.layout.sections[run][0];
        // A run alone is read without its surge protector. The 0.05 ohm of the short itself are little beside the cable.
        let whole = section.ohm[0] - section.protection_ohm;
        let item = format!("A-gate={:.4}ohm", 0.4 * whole + 0.05);
        let found = located(plant, &[&item, "insulation:A-gate=1.2ohm", "gate=dead"]);
        let (hypothesis, posterior) = found.cause(0);
        assert_eq!(hypothesis.cause.kind, Kind::Short);
        assert!(has(plant, hypothesis.cause.element, "A-gate"));
        let size = posterior.size.unwrap();
        assert!(size.low < 0.42 && size.high > 0.38, "{size:?}");
    });
}

/// A joint in a run alone: what the loop reads beyond the plan is the joint (Ohm's law), whatever section it is in.
#[test]
fn a_joint_is_as_large_as_what_the_loop_reads_beyond_the_plan() {
    with_demo(|plant| {
        let run = plant.site.runs.iter().position(|run| run.id.as_str() == "A-R4").unwrap();
        let plan: f64 = plant.layout.sections[run].iter().map(|section| section.ohm[0]).sum();
        let item = format!("A-R4={:.3}ohm", plan + 9.0);
        let found = located(plant, &[&item]);
        let first = &found.classes[0];
        let joints: Vec<_> = first
            .members
            .iter()
            .map(|place| found.cause(*place))
            .filter(|(hypothesis, _)| hypothesis.cause.kind == Kind::Joint)
            .collect();
        assert_eq!(joints.len(), 3, "one in each section: the loop cannot tell them apart");
        for (_, posterior) in joints {
            let size = posterior.size.unwrap();
            assert!(size.low < 9.0 && size.high > 9.0 && size.high - size.low < 1.5, "{size:?}");
        }
        assert!(found.next.is_some(), "another reading tells them apart");
    });
}

/// A break is between the last place that has voltage and the first that has none.
#[test]
fn a_break_is_between_voltage_and_none() {
    with_demo(|plant| {
        let found = located(plant, &["A-12=46.9V", "A-13=0V", "A-13=dead", "A-12=works"]);
        let (hypothesis, posterior) = found.cause(0);
        assert_eq!(hypothesis.cause.kind, Kind::Open);
        assert_eq!(hypothesis.cause.element.name(plant.site), "A-R1: A-12 – A-13");
        assert!(posterior.probability > 0.6, "{}", posterior.probability);
    });
}

/// Nothing but common sense: what was read is right everywhere, so no cable is accused.
#[test]
fn sound_readings_accuse_no_cable() {
    with_demo(|plant| {
        let found = located(plant, &["A-15=46.8V", "A-R1=2.7ohm", "A-15=rings-elsewhere"]);
        let (hypothesis, _) = found.cause(0);
        assert_eq!(hypothesis.cause.kind, Kind::SettingWrong);
        assert_eq!(hypothesis.cause.element.name(plant.site), "A-15");
    });
}

/// Two readings of one place that cannot both be right: one of them is pointed out, and it is the one that nothing explains.
#[test]
fn a_reading_that_contradicts_the_others_is_pointed_out() {
    with_demo(|plant| {
        let items = ["A-11=46.9V", "A-12=46.8V", "A-13=12V", "A-14=46.7V", "A-15=46.7V"];
        let found = located(plant, &items);
        assert_eq!(found.doubtful, [2]);
    });
}

/// Two faults in two runs, of which no single cause explains both: the pair is named.
#[test]
fn two_faults_at_once_are_named_as_a_pair() {
    with_demo(|plant| {
        let sound = located(plant, &["A-PS=47.9V"]);
        assert!(sound.pairs.is_empty() && !sound.nothing_fits);
        let loops = |run: &str, extra: f64| {
            let run_index = plant.site.runs.iter().position(|one| one.id.as_str() == run).unwrap();
            let plan: f64 = plant.layout.sections[run_index].iter().map(|section| section.ohm[0]).sum();
            format!("{run}={:.3}ohm", plan + extra)
        };
        let (first, second) = (loops("A-R4", 30.0), loops("A-R2", 25.0));
        let again = [loops("A-R4", 30.0), loops("A-R2", 25.0)];
        let found = located(plant, &[&first, &second, &again[0], &again[1]]);
        let pair = found.pairs.first().expect("no single cause explains both");
        let mut runs = pair.causes.map(|(place, _)| {
            let element = found.hypotheses[place].cause.element;
            element.run().map(|run| plant.site.runs[run].id.to_string())
        });
        runs.sort();
        assert_eq!(runs, [Some("A-R2".into()), Some("A-R4".into())]);
    });
}
