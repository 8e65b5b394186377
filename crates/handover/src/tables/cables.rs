//! The cable list: every length of cable with the labels of both ends.

use super::column::{column, measured};
use crate::language::Word;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Role, Table};
use latchline_finding::{Unit, Units};
use latchline_site::cables::CableOwner;
use latchline_site::catalogue::Environment;
use latchline_site::protectors;
use latchline_wiring::{UnstatedCable, WiredCable};

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let mut length = measured(locale, Word::Length, Unit::Metre, 9);
    length.is_summed = true;
    let columns = vec![
        column(locale, Word::Cable, 11).with_role(Role::Names),
        column(locale, Word::Run, 9),
        column(locale, Word::CableType, 11),
        // Metric sizes with their gauge beside take more room.
        column(locale, Word::ConductorSize, if locale.units == Units::Us { 20 } else { 13 }),
        column(locale, Word::PairsUsed, 7),
        column(locale, Word::PairsSpare, 6),
        column(locale, Word::From, 12).with_role(Role::Names),
        column(locale, Word::To, 12).with_role(Role::Names),
        length,
        column(locale, Word::RunsWhere, 9),
        column(locale, Word::Remark, 18),
        measured(locale, Word::LengthLaid, Unit::Metre, 8),
        column(locale, Word::TypeLaid, 11),
        column(locale, Word::Done, 5),
    ];
    let mut table = Table::new(Part::Cables, locale.word(Word::CablesTitle), columns);
    table.note(locale.word(Word::LabelConvention));
    table.note(locale.word(Word::ScreenConvention));
    table.note(locale.word(Word::AsBuiltNote));
    for cable in &subject.wiring.cables {
        let part = &subject.site.catalogue.cables[&cable.laid.cable];
        let spare = (cable.laid.side_by_side * part.pairs.value.max(1)).saturating_sub(cable.laid.pairs);
        let (run, place) = match cable.laid.owner {
            CableOwner::Section { run, .. } => {
                let run = &subject.site.runs[run];
                let place = match run.environment.value {
                    Environment::Indoors => Word::Indoors,
                    Environment::Outdoors => Word::Outdoors,
                    Environment::Buried => Word::Buried,
                };
                (run.id.to_string(), locale.cell(place))
            }
            _ => (String::new(), Cell::Empty),
        };
        // Each piece is pulled, cut and labelled by itself.
        for name in piece_names(cable) {
            table.row(vec![
                Cell::text(name),
                Cell::text(&run),
                Cell::text(&cable.laid.cable),
                Cell::text(locale.conductor(part)),
                Cell::Count(u64::from(cable.laid.pairs)),
                Cell::Count(u64::from(spare)),
                Cell::text(subject.end_words(cable.from)),
                Cell::text(subject.end_words(cable.to)),
                locale.length_laid(cable.laid.length.as_metres()),
                place.clone(),
                Cell::text(remark(subject, cable)),
                Cell::WriteIn,
                Cell::WriteIn,
                Cell::Tick,
            ]);
        }
    }
    for cable in &subject.wiring.unstated {
        table.row(unstated(subject, cable));
    }
    table
}

/// A cable of which the plan says nothing: its ends, and room to write down what was laid.
fn unstated(subject: &Subject<'_>, cable: &UnstatedCable) -> Vec<Cell> {
    let locale = &subject.locale;
    let (from, to) = (subject.end_words(cable.from), subject.end_words(cable.to));
    let name = &cable.designation;
    vec![
        Cell::text(name),
        Cell::Empty,
        Cell::Empty,
        Cell::Empty,
        Cell::Count(u64::from(cable.conductors.div_ceil(2))),
        Cell::Empty,
        Cell::text(&from),
        Cell::text(&to),
        Cell::Empty,
        Cell::Empty,
        locale.cell(Word::CableNotStated),
        Cell::WriteIn,
        Cell::WriteIn,
        Cell::Tick,
    ]
}

/// The names of the pieces of a length: of several side by side each has a number.
pub fn piece_names(cable: &WiredCable) -> Vec<String> {
    match cable.laid.side_by_side {
        0 | 1 => vec![cable.designation.clone()],
        pieces => (1..=pieces).map(|piece| format!("{} #{piece}", cable.designation)).collect(),
    }
}

fn remark(subject: &Subject<'_>, cable: &WiredCable) -> String {
    let locale = &subject.locale;
    let mut remarks = Vec::new();
    if cable.laid.is_existing {
        remarks.push(locale.word(Word::InTheWalls));
    }
    if cable.laid.side_by_side > 1 {
        remarks.push(locale.word(Word::SeveralCables));
    }
    let part = &subject.site.catalogue.cables[&cable.laid.cable];
    if part.screened.value {
        remarks.push(locale.word(Word::Screened));
    }
    if let CableOwner::Section { run, section } = cable.laid.owner {
        let run = &subject.site.runs[run];
        if run.joints.value > 0 && section == 0 {
            remarks.push(locale.word(Word::HasJoints));
        }
        let protectors = &protectors::of_sections(subject.site, run)[section];
        remarks.extend(protectors.before.map(|_| locale.word(Word::SurgeProtectorAtStart)));
        remarks.extend(protectors.behind.map(|_| locale.word(Word::SurgeProtectorAtEnd)));
        if run.beside_mains.value {
            remarks.push(locale.word(Word::BesideMains));
        }
    }
    remarks.join("; ")
}
