//! Designs to choose between, policies that steer, and locked decisions.

use crate::common::{corridors, design_with, survey};
use latchline_assess::Memory;
use latchline_design::{Choice, Design, Effort, Merits, Texts, alternatives, design_remembering};
use latchline_finding::{Language, Sources};
use latchline_site::catalogue::BoxRole;
use latchline_site::model::{RunStart, RunStop};
use latchline_site::{LoadedCatalogues, builtin_catalogue};
use latchline_survey::Survey;
use proptest::prelude::*;
use std::collections::BTreeSet;

const FAMILY: &str = "ostrel-48";

fn survey_of(sheets: &[(&str, String)]) -> Survey {
    let read = survey(sheets);
    read.survey.unwrap_or_else(|| panic!("{:?}", read.problems))
}

fn designed(sheets: &[(&str, String)]) -> Design {
    design_with(&survey_of(sheets), FAMILY, &[], Effort::default())
        .unwrap_or_else(|obstacle| panic!("{obstacle}"))
}

/// The designs to choose between; `None` where there is no design.
fn chosen(survey: &Survey) -> Option<Choice> {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let catalogues = vec![sources.add(name, text)];
    let catalogues = LoadedCatalogues::with_prices(&sources, &catalogues, survey.prices.clone());
    let texts = Texts { sources: &sources, catalogues: &catalogues, language: Language::English };
    let memory = Memory::default();
    let effort = Effort::default();
    let cheapest = design_remembering(survey, FAMILY, texts, &memory, effort, &mut |_, _, _| true).ok()?;
    Some(alternatives(survey, cheapest, texts, &memory, effort, &mut |_, _, _| true))
}

/// By the definition of what is offered: each is dearer than the one before and better in something, and none is as good as another.
fn nobody_beats_another(choice: &Choice) {
    for pair in choice.list.windows(2) {
        assert!(pair[0].merits.cost <= pair[1].merits.cost);
    }
    for (at, one) in choice.list.iter().enumerate() {
        assert!(one.design.lower_bound <= one.design.cost);
        assert_eq!(one.merits, Merits::of(&one.design));
        for (other_at, other) in choice.list.iter().enumerate() {
            assert!(at == other_at || !other.merits.is_as_good_as(&one.merits), "{other_at} beats {at}");
        }
    }
}

#[test]
fn a_block_has_designs_to_choose_between() {
    let survey = survey_of(&corridors(1, 3, 6, "Largest silenced group,8\n"));
    let choice = chosen(&survey).expect("a design");
    nobody_beats_another(&choice);
    assert!(choice.list.len() > 1, "{:?}", choice.left_out);
    let cheapest = &choice.list[0];
    for other in &choice.list[1..] {
        let margin = |merits: &Merits| merits.margin.as_ref().map_or(0.0, |(_, margin_v)| *margin_v);
        assert!(
            margin(&other.merits) > margin(&cheapest.merits)
                || other.merits.largest_group < cheapest.merits.largest_group
                || other.merits.warnings < cheapest.merits.warnings
        );
    }
}

/// What a locked decision, or a policy, asks for is in the site as it was resolved.
#[test]
fn policies_and_locked_decisions_are_kept() {
    let block = |settings: &str| corridors(1, 2, 4, settings);
    let free = designed(&block(""));
    let margin_v = |design: &Design| Merits::of(design).margin.map_or(0.0, |(_, margin_v)| margin_v);
    // A margin that the cheapest lacks.
    let asked_v = (margin_v(&free) + 0.3).min(9.5);
    let wide = designed(&block(&format!("Least margin,{asked_v}\n")));
    assert!(margin_v(&wide) >= asked_v, "{} of {asked_v}", margin_v(&wide));
    assert!(wide.cost >= free.cost && wide.lower_bound >= free.lower_bound);
    // One type of cable.
    let one = designed(&block("One cable type,yes\n"));
    let cables: BTreeSet<&str> =
        one.site.runs.iter().map(|run| one.site.cable(run).head.name.as_str()).collect();
    assert_eq!(cables.len(), 1, "{cables:?}");
    assert!(one.cost >= free.cost && one.lower_bound <= one.cost);
    // Decisions.
    let locked = |rows: &str| {
        let mut sheets = block("");
        sheets.push(("locked decisions", format!("Decision,What,To,Part\n{rows}")));
        let design = designed(&sheets);
        assert!(design.cost >= free.cost, "{rows}: {} below {}", design.cost, free.cost);
        assert!(design.lower_bound <= design.cost, "{rows}");
        design
    };
    let stations = |design: &Design, run: usize| -> Vec<String> {
        let stops = design.site.runs[run].sections.iter().map(|section| section.to);
        let stations = stops.filter(|stop| matches!(stop, RunStop::Station(_)));
        stations.map(|stop| design.site.stop_id(stop).to_string()).collect()
    };
    let run_of = |design: &Design, name: &str| {
        (0..design.site.runs.len())
            .find(|run| stations(design, *run).iter().any(|station| station == name))
            .expect("a run")
    };
    let together = locked("together,A-001;A-104,,\n");
    // What hangs on a branch box is on the run that feeds it.
    let root = |name: &str| {
        let site = &together.site;
        let mut run = run_of(&together, name);
        while let RunStart::Port { box_index, .. } = site.runs[run].from {
            let feeds = |other: &usize| {
                let mut sections = site.runs[*other].sections.iter();
                sections.any(|section| matches!(section.to, RunStop::BoxInput(at) if at == box_index))
            };
            let is_branch = site.box_model(&site.boxes[box_index]).role.value == BoxRole::BranchBox;
            match (0..site.runs.len()).find(feeds).filter(|_| is_branch) {
                Some(above) => run = above,
                None => break,
            }
        }
        run
    };
    assert_eq!(root("A-001"), root("A-104"));
    let not_through = locked("not through,A-001;A-002;A-003;A-004,,\n");
    for name in ["A-001", "A-002", "A-003", "A-004"] {
        let stations = stations(&not_through, run_of(&not_through, name));
        assert_eq!(stations.last().map(String::as_str), Some(name));
    }
    let cable = locked("cable,A-102,,outdoor-0.8\n");
    let run = &cable.site.runs[run_of(&cable, "A-102")];
    assert_eq!(cable.site.cable(run).head.name, "outdoor-0.8");
    let at_the_top = locked("box,A-1,,ostrel-d8t\n");
    let model = |index: usize| {
        let item = &at_the_top.site.boxes[index];
        (at_the_top.site.box_model(item).head.name.clone(), item.place.floor)
    };
    let boxes: Vec<_> = (0..at_the_top.site.boxes.len()).map(model).collect();
    assert!(boxes.iter().any(|(name, floor)| name == "ostrel-d8t" && *floor == Some(1)), "{boxes:?}");
    assert!(at_the_top.site.runs.iter().any(|run| matches!(run.from, RunStart::Port { .. })));
    let upstairs = locked("supply,A-1,,\n");
    assert_ne!(upstairs.site.supplies[0].place, free.site.supplies[0].place);
}

/// Places of a chain, dwellings at them with their drops, a largest group, a margin, spare ports.
#[derive(Debug, Clone)]
struct Small {
    ways_dm: Vec<u32>,
    dwellings: Vec<(usize, u32)>,
    group: u32,
    margin_dv: u32,
    spare: u32,
}

fn small() -> impl Strategy<Value = Small> {
    let ways = prop::collection::vec(20u32..300, 1..4);
    let dwellings = prop::collection::vec((0usize..4, 5u32..60), 2..6);
    (ways, dwellings, 1u32..4, 0u32..60, 0u32..3).prop_map(|(ways_dm, dwellings, group, margin_dv, spare)| {
        Small { ways_dm, dwellings, group, margin_dv, spare }
    })
}

fn sheets(small: &Small, settings: &str) -> Vec<(&'static str, String)> {
    let count = small.ways_dm.len() + 1;
    let mut places = String::from("Place,Mains,Boxes\np0,yes,yes\n");
    let mut routes = String::from("From,To,Length\n");
    for (at, way) in small.ways_dm.iter().enumerate() {
        places += &format!("p{},no,yes\n", at + 1);
        routes += &format!("p{at},p{},{}\n", at + 1, f64::from(*way) / 10.0);
    }
    let mut dwellings = String::from("Dwelling,Place,Drop\n");
    for (at, (place, drop)) in small.dwellings.iter().enumerate() {
        dwellings += &format!("d{at},p{},{}\n", place % count, f64::from(*drop) / 10.0);
    }
    vec![
        ("site", format!("Setting,Value\nTitle,Small\n{settings}")),
        ("places", places),
        ("routes", routes),
        ("dwellings", dwellings),
        ("entrances", String::from("Entrance,Place,Drop,Role\nfront,p0,4,main\n")),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// What a tighter limit lets pass the looser one does, too: its cheapest is never cheaper (monotony of a minimum over a smaller set).
    #[test]
    fn a_tighter_limit_never_gives_a_cheaper_result(small in small()) {
        let loose = chosen(&survey_of(&sheets(&small, "")));
        if let Some(choice) = &loose {
            nobody_beats_another(choice);
        }
        let limits = [
            format!("Largest silenced group,{}\n", small.group),
            format!("Least margin,{}\n", f64::from(small.margin_dv) / 10.0),
            format!("Spare ports,{}\n", small.spare),
            String::from("No warnings,yes\n"),
            String::from("One cable type,yes\n"),
        ];
        for limit in limits {
            let Some(tight) = chosen(&survey_of(&sheets(&small, &limit))) else { continue };
            let Some(loose) = &loose else {
                return Err(TestCaseError::fail(format!("a design under {limit} and none without")));
            };
            let (tight, loose) = (&tight.list[0].design, &loose.list[0].design);
            prop_assert!(tight.cost >= loose.cost, "{limit}: {} below {}", tight.cost, loose.cost);
            prop_assert!(tight.lower_bound <= tight.cost);
        }
    }
}
