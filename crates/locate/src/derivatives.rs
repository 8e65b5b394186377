//! Derivatives by the tolerances are those of finite differences of the whole nonlinear flow, whatever the fault.

use crate::effect::Effect;
use crate::hypothesis::hypotheses;
use crate::kind::{Element, Kind};
use crate::plant::Plant;
use crate::predict::State;
use crate::quantity::Quantity;
use crate::rates::{Age, Rates};
use crate::whole_and_reduced::site;
use latchline_circuit::flow::Workspace;
use latchline_finding::{Sources, StateKind};
use latchline_network::readings::ReadingPlace;
use latchline_network::{BusState, Layout};
use latchline_site::{builtin_catalogue, resolve};

/// Half the difference that is taken, in deviations of a factor.
const STEP: f64 = 1e-3;

/// A joint, a section that is longer, a short of some resistance at the terminals of a station, a station that draws too much and one that draws nothing:
/// a short is no load of the station at whose terminals it is, so that the station's tolerance is none of the short's.
#[test]
fn derivatives_are_those_of_finite_differences() {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let catalogue = sources.add(name, text);
    let file = sources.add("site.toml", site());
    let site = resolve(&sources, file, &[catalogue]).site.unwrap();
    let layout = Layout::new(&site);
    let plant = Plant::new(&site, &layout);
    let standby = BusState::from(StateKind::StandbyDay);
    let run = site.runs.iter().position(|run| run.id.as_str() == "R2").unwrap();
    let station = |place: usize| match site.runs[run].sections[place].to {
        latchline_site::model::RunStop::Station(station) => station,
        _ => unreachable!(),
    };
    let wanted = [
        (Kind::Joint, Element::Section { run, section: 3 }, 20.0),
        (Kind::LongerRun, Element::Section { run, section: 2 }, 3.0),
        (Kind::ShortResistive, Element::Section { run, section: 4 }, 300.0),
        (Kind::StationOverdraw, Element::Station(station(4)), 6.0),
        (Kind::StationDead, Element::Station(station(1)), 0.0),
    ];
    let every = hypotheses(&plant, &Rates::built_in(), Age::InService);
    let faults: Vec<(Kind, Vec<Effect>)> = wanted
        .into_iter()
        .map(|(kind, element, size)| {
            let found = every.iter().find(|one| one.cause.kind == kind && one.cause.element == element);
            (kind, found.unwrap().effects(&plant, size))
        })
        .collect();
    let voltage =
        |station: usize| Quantity::Voltage { at: ReadingPlace::Station(station), state: standby.clone() };
    let quantities = [
        voltage(station(4)),
        voltage(station(7)),
        Quantity::Current { at: ReadingPlace::Run(run), state: standby.clone() },
        Quantity::Current { at: ReadingPlace::Supply(0), state: standby.clone() },
    ];
    let mut workspace = Workspace::new();
    let nominal = State::new(&plant, &standby).unwrap();
    let rows: Vec<Vec<Vec<f64>>> = faults
        .iter()
        .map(|(_, effects)| {
            let faulted = nominal.with_derivatives(effects, &mut workspace);
            quantities.iter().map(|quantity| faulted.row(quantity)).collect()
        })
        .collect();
    let mut largest = 0.0_f64;
    for factor in 0..plant.factors {
        let built = [STEP, -STEP].map(|step| {
            let mut drawn = vec![0.0; plant.factors];
            drawn[factor] = step;
            Plant { drawn, ..plant.clone() }
        });
        let states = [0, 1].map(|side| State::new(&built[side], &standby).unwrap());
        for ((kind, effects), rows) in faults.iter().zip(&rows) {
            let both = [0, 1].map(|side| states[side].with_derivatives(effects, &mut workspace));
            for (quantity, row) in quantities.iter().zip(rows) {
                let read = |side: usize| both[side].read(quantity).unwrap().value;
                let difference = (read(0) - read(1)) / (2.0 * STEP);
                let apart = (row[factor] - difference).abs();
                assert!(
                    apart < 1e-4,
                    "{kind:?} {quantity:?} by factor {factor}: {} {difference}",
                    row[factor]
                );
                largest = largest.max(difference.abs());
            }
        }
    }
    assert!(largest > 0.1, "{largest}");
}
