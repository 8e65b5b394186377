//! What is solved of a reduced stage is what the whole gives.

use crate::hypothesis::hypotheses;
use crate::plant::Plant;
use crate::predict::State;
use crate::rates::{Age, Rates};
use crate::size::size_at;
use latchline_circuit::flow::Workspace;
use latchline_finding::{CallMoment, Sources, StateKind};
use latchline_network::{Layout, NodeRef};
use latchline_site::{builtin_catalogue, resolve};
use std::fmt::Write;

/// Volts by which both ways of solving may differ at any place: less than half of a good meter's error.
const SAME_V: f64 = 0.05;

/// Five chains of eight stations.
pub(crate) fn site() -> String {
    let mut text = String::from(
        "[site]\ntitle = \"Five chains\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v4\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.8\"\n[buildings]\nB = { floors = [\"G\"] }\n[supplies]\nPS = { model = \"ostrel-ps-120\", place = \"B/G\" }\n[distributors]\nD = { model = \"ostrel-d8t\", place = \"B/G\" }\n[entrances]\nfront = { role = \"main\", place = \"B/G\" }\n[dwellings]\n",
    );
    let name = |chain: usize, place: usize| format!("B-{}", 10 * chain + place);
    for chain in 1..=5 {
        (1..=8).for_each(|place| writeln!(text, "{} = {{ place = \"B/G\" }}", name(chain, place)).unwrap());
    }
    text += "[runs]\nfeed = { from = \"PS\", to = \"D\", cable = \"flex-1.5\", length = \"2 m\" }\ndoor = { from = \"PS\", to = \"front\", cable = \"outdoor-0.8\", length = \"12 m\" }\n";
    for chain in 1..=5 {
        let stops: Vec<String> = (1..=8).map(|place| format!("\"{}\"", name(chain, place))).collect();
        writeln!(
            text,
            "R{chain} = {{ from = \"D.{chain}\", to = [{}], first = \"9 m\", spacing = \"6 m\" }}",
            stops.join(", ")
        )
        .unwrap();
    }
    text
}

/// Every cause at five sizes, in standby and in a call: the whole stage solved, and what of it the fault changes.
#[test]
fn what_is_reduced_is_what_the_whole_gives() {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let catalogue = sources.add(name, text);
    let file = sources.add("site.toml", site());
    let resolved = resolve(&sources, file, &[catalogue]);
    let site = resolved.site.unwrap_or_else(|| panic!("{:?}", resolved.findings));
    let layout = Layout::new(&site);
    let plant = Plant::new(&site, &layout);
    let mut workspace = Workspace::new();
    let last = (0..site.stations.len()).rev().find_map(|one| plant.call(one, CallMoment::Ringing, None));
    for wanted in [Some(StateKind::StandbyDay.into()), last].into_iter().flatten() {
        let state = State::new(&plant, &wanted).unwrap();
        let (mut compared, mut of_other_regimes, mut farthest_v) = (0, 0, 0.0_f64);
        for cause in hypotheses(&plant, &Rates::built_in(), Age::InService) {
            for place in [0.0, 0.25, 0.5, 0.75, 1.0] {
                let effects = cause.effects(&plant, size_at(&cause, place));
                if effects.is_empty() || (cause.range.is_none() && place > 0.0) {
                    continue;
                }
                let whole = state.with_derivatives(&effects, &mut workspace);
                let reduced = state.with(&effects, &mut workspace);
                compared += 1;
                if whole.regime(0) != reduced.regime(0) {
                    of_other_regimes += 1;
                    continue;
                }
                for (stage, laid) in layout.stages.iter().enumerate() {
                    for node in 0..laid.parent.len() {
                        let at = NodeRef { stage, node };
                        let apart_v = (whole.voltage(at) - reduced.voltage(at)).abs();
                        assert!(apart_v < SAME_V, "{:?} at {place}: {apart_v} V", cause.cause);
                        farthest_v = farthest_v.max(apart_v);
                    }
                }
            }
        }
        assert!(compared > 1000, "{compared}");
        assert_eq!(of_other_regimes, 0, "of {compared}; farthest {farthest_v} V");
    }
}
