//! The sheet of one entrance: what the installer needs to know at the door, as owned data.

use super::LockAt;
use super::alarm::{AlarmSheet, alarm_sheets};
use super::caution::Caution;
use super::circuit::{LockCircuit, Unknown, lock_circuit};
use super::escape::{EscapeRule, escape_rules, is_judged_as_way_out};
use super::heights::{HeightRange, height_range};
use super::light::{LightOutput, LightSheet, light_output, light_sheets};
use super::loads::{DoorLoad, door_load};
use super::lock_calculation::calculation;
use super::modules::ModuleChain;
use super::times::{LockTimes, lock_times};
use crate::calculation::CalculationLine;
use crate::stage::WithVoltages;
use latchline_finding::{Both, ElementId, Provenance, Sourced};
use latchline_site::catalogue::{Feed, LockKind, PowerLoss};
use latchline_site::model::{LockPart, LockUse};
use latchline_wiring::door::joints;
use latchline_wiring::lock::{LockWiring, lock_wiring};
use latchline_wiring::terminal::door_contact_input;

/// One lock of an entrance.
#[derive(Debug, Clone, PartialEq)]
pub struct LockSheet {
    /// Which of the entrance's locks, from 1.
    pub number: usize,
    /// Model name.
    pub model: String,
    /// Title of the model.
    pub title: Both,
    /// How it opens.
    pub kind: LockKind,
    /// What it does without power.
    pub power_loss: PowerLoss,
    /// Kind of current it is made for.
    pub current_kind: Feed,
    /// Cable as shown and its length in metres, where stated.
    pub cable: Option<(String, f64)>,
    /// The same of each part of its circuit that the plan has; `None` where the plan states no cable to it.
    pub part_cables: Vec<(LockPart, Option<(String, f64)>)>,
    /// The figures, or why there are none.
    pub circuit: Result<LockCircuit, Unknown>,
    /// The figures again as a calculation, line by line; empty where there are none.
    pub calculation: Vec<CalculationLine>,
    /// How it is wired.
    pub wiring: LockWiring,
    /// Rating of the contact of a relay in between, in amperes, where there is one.
    pub relay_between_a: Option<f64>,
    /// The number of the connector between each part of the series and the next, then at the coil of a relay in between, where
    /// there is one.
    pub joints: Vec<Option<usize>>,
    /// Which alarm input the door contact is wired to, from 1; `None` where it leads elsewhere.
    pub door_contact_input: Option<usize>,
    /// Times of release and coil.
    pub times: Option<LockTimes>,
    /// Exit button, as stated in the plan; `None` where it says nothing, which counts as none.
    pub exit_button: Option<bool>,
    /// As stated in the plan; `None` where it says nothing.
    pub mechanical_escape: Option<bool>,
    /// As stated in the plan; `None` where it says nothing.
    pub emergency_release: Option<bool>,
    /// As stated in the plan; `None` where it says nothing.
    pub relay_on_secure_side: Option<bool>,
    /// Contact that reports whether the door is shut; `None` where the plan says nothing, which counts as none.
    pub door_contact: Option<bool>,
    /// Delay of delayed egress in seconds, where the plan has one.
    pub delayed_egress_s: Option<f64>,
    /// What must be said beside the figures, in a fixed order.
    pub cautions: Vec<Caution>,
}

/// The sheet of one entrance.
#[derive(Debug, Clone, PartialEq)]
pub struct DoorSheet {
    /// The entrance.
    pub entrance: ElementId,
    /// The same by index into the site's entrances.
    pub index: usize,
    /// Where it is, in words.
    pub place: Both,
    /// Whether it is outdoors or in the wet.
    pub outdoors: bool,
    /// Model of the door station.
    pub station: String,
    /// Lock outputs of the station.
    pub lock_outputs: u32,
    /// Whether people escape through it; `None` where the plan says nothing, which is not judged.
    pub escape_route: Option<bool>,
    /// Whether it is judged as a way out at all: a gate drive outside is not.
    pub is_judged_as_way_out: bool,
    /// Who decided that.
    pub escape_decided_by: Option<String>,
    /// When, as YYYY-MM-DD.
    pub escape_decided_on: Option<String>,
    /// Whether a fire interlock acts on it; `None` where the plan says nothing, which counts as no.
    pub fire_interlock: Option<bool>,
    /// Height of the controls in metres, where stated.
    pub control_height_m: Option<f64>,
    /// The published range for the site's country.
    pub height_range: HeightRange,
    /// Published rules for escape routes in the site's country; empty where the entrance is none.
    pub escape_rules: &'static [EscapeRule],
    /// Its modules.
    pub modules: ModuleChain,
    /// Whether a heater is fitted and on at night; `None` where the plan says nothing, which counts as no.
    pub heater: Option<bool>,
    /// Its lights.
    pub lights: Vec<LightSheet>,
    /// What they take from the station's light output; `None` where none hangs on it.
    pub light_output: Option<LightOutput>,
    /// What is wired to its alarm inputs.
    pub alarm_inputs: Vec<AlarmSheet>,
    /// What it draws from the bus in standby; `None` where it hangs on none.
    pub load: Option<DoorLoad>,
    /// Its locks.
    pub locks: Vec<LockSheet>,
}

impl DoorSheet {
    /// What hangs on the door station besides locks, line by line: modules, lights, alarm loops.
    pub fn calculation(&self) -> Vec<CalculationLine> {
        let mut lines = self.modules.calculation();
        lines.extend(self.light_output.iter().map(|output| output.calculation.clone()));
        lines.extend(self.alarm_inputs.iter().filter_map(|input| input.calculation.clone()));
        lines
    }

    /// Assumed values under its figures, as "part key".
    pub fn assumed(&self) -> Vec<String> {
        let circuits = self.locks.iter().filter_map(|lock| Some(&lock.circuit.as_ref().ok()?.assumed));
        let output = self.light_output.iter().map(|output| &output.assumed);
        let inputs = self.alarm_inputs.iter().map(|input| &input.assumed);
        let modules = std::iter::once(&self.modules.assumed);
        circuits
            .chain(modules)
            .chain(output)
            .chain(inputs)
            .flat_map(|assumed| assumed.list().to_vec())
            .collect()
    }
}

/// The sheets of all entrances in file order.
pub fn door_sheets(context: &WithVoltages<'_>) -> Vec<DoorSheet> {
    (0..context.site.entrances.len()).map(|index| door_sheet(context, index)).collect()
}

fn door_sheet(context: &WithVoltages<'_>, index: usize) -> DoorSheet {
    let site = context.site;
    let entrance = &site.entrances[index];
    let station = site.station_model(&site.stations[entrance.station]);
    let country = site.country.as_ref().map(|country| country.value.as_str());
    DoorSheet {
        entrance: entrance.id.clone(),
        index,
        place: site.place_words(&entrance.place),
        outdoors: entrance.place.outdoors,
        station: station.head.name.clone(),
        lock_outputs: station.lock_outputs.value,
        escape_route: entrance.escape_route.as_ref().map(|stated| stated.value),
        is_judged_as_way_out: is_judged_as_way_out(site, entrance),
        escape_decided_by: entrance.decided_by().map(str::to_string),
        escape_decided_on: entrance.escape_decided_on.clone(),
        fire_interlock: if_stated(&entrance.fire_interlock),
        control_height_m: entrance.control_height.as_ref().map(|height| height.value.as_metres()),
        height_range: height_range(country),
        escape_rules: if entrance.is_escape_route() { escape_rules(country) } else { &[] },
        modules: ModuleChain::of(site, entrance),
        heater: if_stated(&entrance.heater),
        lights: light_sheets(context, entrance),
        light_output: light_output(context, entrance),
        alarm_inputs: alarm_sheets(context, entrance),
        load: door_load(context, entrance),
        locks: LockAt::of_entrance(site, entrance).map(|at| lock_sheet(context, index, &at)).collect(),
    }
}

/// A value that the plan states; `None` for a default.
fn if_stated(value: &Sourced<bool>) -> Option<bool> {
    (value.provenance != Provenance::Assumed).then_some(value.value)
}

fn lock_sheet(context: &WithVoltages<'_>, entrance: usize, at: &LockAt<'_>) -> LockSheet {
    let (used, lock) = (at.used, at.lock);
    let circuit = lock_circuit(context, at);
    let calculation = circuit.as_ref().map_or(Vec::new(), |circuit| calculation(context, at, circuit));
    let stated = |value: &Option<Sourced<bool>>| value.as_ref().map(|value| value.value);
    LockSheet {
        number: at.number,
        model: lock.head.name.clone(),
        title: lock.head.title.clone(),
        kind: lock.kind.value,
        power_loss: lock.power_loss.value,
        current_kind: lock.feed.value,
        cable: cable_words(used),
        part_cables: part_cables(at),
        cautions: cautions(at, circuit.as_ref().ok()),
        circuit,
        calculation,
        wiring: lock_wiring(at.site, at.entrance, at.used),
        relay_between_a: used.relay_between.as_ref().map(|rated| rated.value.as_amps()),
        joints: joints(at.site, entrance, at.number - 1),
        door_contact_input: door_contact_input(at.entrance, at.number - 1),
        times: lock_times(at),
        exit_button: if_stated(&used.exit_button),
        mechanical_escape: stated(&used.mechanical_escape),
        emergency_release: stated(&used.emergency_release),
        relay_on_secure_side: stated(&used.relay_on_secure_side),
        door_contact: if_stated(&used.door_contact),
        delayed_egress_s: used.delayed_egress.as_ref().map(|delay| delay.value.as_seconds()),
    }
}

fn cable_words(used: &LockUse) -> Option<(String, f64)> {
    Some((used.cable.as_ref()?.value.clone(), used.length.as_ref()?.value.as_metres()))
}

fn part_cables(at: &LockAt<'_>) -> Vec<(LockPart, Option<(String, f64)>)> {
    let fitted = LockPart::ALL.into_iter().filter(|part| at.entrance.has_part(at.used, *part));
    let cable = |part| at.used.cable_to(part).map(|to| (to.cable.value.clone(), to.length.value.as_metres()));
    fitted.map(|part| (part, cable(part))).collect()
}

fn cautions(at: &LockAt<'_>, circuit: Option<&LockCircuit>) -> Vec<Caution> {
    // A drive with power of its own has mains in the case in which the bus's contact ends.
    let mut list = vec![Caution::IsolateAndProveDead, Caution::KeepApartFromMains];
    if at.entrance.is_escape_route() {
        list.extend([Caution::ResponsiblePersonDecides, Caution::WayOutWithoutBus]);
    }
    if at.used.relay_on_secure_side.as_ref().is_none_or(|stated| !stated.value) {
        let is_in_station = !at.entrance.has_part(at.used, LockPart::Relay) && at.entrance.place.outdoors;
        list.push(if is_in_station { Caution::RelayInStationOutdoors } else { Caution::RelayOnSecureSide });
    }
    let suppression = at.used.suppression.as_ref().map(|stated| stated.value);
    if suppression == Some(latchline_site::model::Suppression::Diode) {
        list.push(Caution::DiodePolarity);
    }
    if at.is_of_another_system() {
        list.push(Caution::DriveSafety);
    } else if at.lock.power_loss.value == PowerLoss::Opens {
        list.push(Caution::OpensOnPowerFailure);
    }
    if circuit.is_some_and(|circuit| !circuit.assumed.list().is_empty()) {
        list.push(Caution::RestsOnAssumedValues);
    }
    list
}
