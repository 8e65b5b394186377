//! The sheet of cables that are in the walls.

use super::{LONGEST_M, Names, Reader};
use crate::fields::{Form, site_name};
use crate::model::ExistingCable;
use crate::problem::ProblemKind;
use crate::sheets::nearest_or_few;
use latchline_finding::Both;
use latchline_site::model::USUAL_JOINT_OHM;
use latchline_words::reading::Thing;

impl Reader<'_> {
    pub(super) fn existing(
        &mut self,
        form: Option<&Form<'_>>,
        places: &Names,
        names: &Names,
    ) -> Vec<ExistingCable> {
        let mut cables = Vec::new();
        for row in form.iter().flat_map(|form| form.rows()) {
            let mut end = |heading: &'static str| {
                let wanted = row.need(heading, self.problems)?;
                let wanted = wanted.map(|name| site_name(&name));
                // B-45:2 is a further station of dwelling B-45.
                let name = match wanted.value.rsplit_once(':') {
                    Some((name, ordinal)) if ordinal.parse::<u32>().is_ok() => name,
                    _ => wanted.value.as_str(),
                };
                if !places.contains_key(name) && !names.contains_key(name) {
                    let known = places.keys().chain(names.keys()).map(String::as_str);
                    let nearest = nearest_or_few(&wanted.value, known);
                    let kind = ProblemKind::UnknownName {
                        kind: Thing::PlaceOrDwelling,
                        name: wanted.value,
                        nearest,
                    };
                    row.wrong(heading, kind, self.problems);
                    return None;
                }
                Some(wanted)
            };
            let (from, to) = (end("From"), end("To"));
            let cable = row.need("Cable", self.problems);
            let length = row.number("Length", 0.01, LONGEST_M, "m", self.problems);
            let loop_ohm = row.number("Loop", 1e-3, 1e6, "ohm", self.problems).map(|value| value.value);
            let capacitance_nf =
                row.number("Capacitance", 1e-3, 1e6, "nF", self.problems).map(|value| value.value);
            let insulation_mohm =
                row.number("Insulation", 1e-6, 1e6, "Mohm", self.problems).map(|value| value.value);
            let is_written = |heading: &str| row.text(heading, &mut Vec::new()).is_some();
            if !is_written("Length") && !is_written("Loop") {
                row.wrong("Length", ProblemKind::Empty("Length / Loop"), self.problems);
            }
            let (Some(from), Some(to), Some(cable)) = (from, to, cable) else { continue };
            let stated_m = length.map(|length| length.value);
            match loop_ohm.filter(|_| stated_m.is_none()) {
                // What the clips of the meter have leaves nothing for a cable.
                Some(ohm) if ohm <= 4.0 * USUAL_JOINT_OHM => {
                    let kind = ProblemKind::OutOfRange {
                        found: Box::new(Both::same(ohm.to_string())),
                        least: 4.0 * USUAL_JOINT_OHM,
                        most: 1e6,
                        unit: Box::new(Both::same("ohm")),
                    };
                    row.wrong("Loop", kind, self.problems);
                    continue;
                }
                None if stated_m.is_none() => continue,
                _ => {}
            }
            cables.push(ExistingCable {
                from,
                to,
                cable,
                stated_m,
                loop_ohm,
                capacitance_nf,
                insulation_mohm,
            });
        }
        cables
    }
}
