//! What is wired to a door station's alarm inputs: contact, loop, who is told.

use super::cable_loop::CableLoop;
use super::{Assumptions, out_of_range};
use crate::calculation::CalculationLine;
use crate::context::Context;
use latchline_finding::{ElementId, Sourced};
use latchline_site::model::{AlarmInput, AlarmKind, Entrance, RelayContact};
use latchline_words::missing::Missing;
use latchline_words::terms::Term;

/// One alarm input of an entrance.
#[derive(Debug, Clone, PartialEq)]
pub struct AlarmSheet {
    /// Which of the station's inputs, from 1.
    pub number: usize,
    /// What it reports.
    pub kind: AlarmKind,
    /// How its contact stands while all is well.
    pub contact: RelayContact,
    /// Whether a resistor at the contact watches the cable.
    pub end_of_line_resistor: bool,
    /// The cable's loop; the missing values where cable or length is not stated.
    pub cable: Result<CableLoop, Vec<Missing>>,
    /// Greatest resistance of a closed loop in ohms, where the station's model states it.
    pub limit_ohm: Option<f64>,
    /// The resistance as a calculation; nothing where it is not known.
    pub calculation: Option<CalculationLine>,
    /// Whether it releases the locks of the door.
    pub releases_locks: bool,
    /// Who is told: management stations, then dwellings.
    pub tells: Vec<ElementId>,
    /// Whether the cable being cut passes unnoticed: the alarm then never comes.
    pub cut_passes_unnoticed: bool,
    /// Assumed values in the resistance.
    pub assumed: Assumptions,
}

/// The alarm inputs of an entrance in the order of its station's terminals.
pub fn alarm_sheets(context: &Context<'_>, entrance: &Entrance) -> Vec<AlarmSheet> {
    let inputs = entrance.alarm_inputs.iter().enumerate();
    inputs.map(|(index, input)| alarm_sheet(context, entrance, index + 1, input)).collect()
}

fn alarm_sheet(context: &Context<'_>, entrance: &Entrance, number: usize, input: &AlarmInput) -> AlarmSheet {
    let site = context.site;
    let station = site.station_model(&site.stations[entrance.station]);
    let mut assumed = Assumptions::default();
    let cable = match (&input.cable, &input.length) {
        (Some(cable), Some(length)) => {
            let cable = &site.catalogue.cables[&cable.value];
            assumed.note_cable(cable);
            CableLoop::new(site, cable, length.value.as_metres(), input.joints.value, 1)
                .map_err(|error| vec![out_of_range(format!("{} alarm input {number}", entrance.id), &error)])
        }
        (cable, length) => {
            let missing = [("cable", cable.is_none()), ("length", length.is_none())];
            let missing = missing.into_iter().filter(|(_, is_missing)| *is_missing);
            let entrance = || entrance.id.to_string();
            Err(missing.map(|(key, _)| Missing::AlarmInput { entrance: entrance(), number, key }).collect())
        }
    };
    let limit_ohm = station.alarm_loop_resistance.as_ref().map(|limit| limit.value.as_ohms());
    if let Some(limit) = &station.alarm_loop_resistance {
        assumed.note(&station.head.name, "alarm_loop_resistance", limit);
    }
    let management = input.tells.management.iter().map(|index| site.management[*index].id.clone());
    let dwellings = input.tells.dwellings.iter().map(|index| site.dwellings[*index].id.clone());
    AlarmSheet {
        number,
        kind: input.kind.value,
        contact: input.contact.value,
        end_of_line_resistor: input.end_of_line_resistor.value,
        limit_ohm,
        calculation: cable.as_ref().ok().map(|cable| cable.line(site, limit_ohm)),
        cable,
        releases_locks: input.kind.value == AlarmKind::Fire,
        tells: management.chain(dwellings).collect(),
        cut_passes_unnoticed: !input.end_of_line_resistor.value
            && input.contact.value == RelayContact::NormallyOpen,
        assumed,
    }
}

/// What an input reports, as an argument of a finding.
pub fn kind_word(kind: AlarmKind) -> Term {
    match kind {
        AlarmKind::Tamper => Term::Tamper,
        AlarmKind::Duress => Term::Duress,
        AlarmKind::Door => Term::DoorOpen,
        AlarmKind::Fire => Term::Fire,
    }
}

/// The first input through which the fire alarm releases the locks.
pub fn fire_input(entrance: &Entrance) -> Option<(usize, &Sourced<AlarmKind>)> {
    let inputs = entrance.alarm_inputs.iter().enumerate();
    inputs.map(|(index, input)| (index + 1, &input.kind)).find(|(_, kind)| kind.value == AlarmKind::Fire)
}
