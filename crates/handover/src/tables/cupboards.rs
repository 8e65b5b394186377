//! The cupboards, a page each: what hangs there, what lands on which terminals, battery, fuses, protectors, and the bar for earths and
//! screens.

use super::column::column;
use super::devices::{kind_words, model_name};
use super::earths::{bar_words, earth_size, how_earthed};
use super::terminal_remarks::parallel_batteries;
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Role, Table};
use latchline_finding::quantity::Current;
use latchline_site::catalogue::BoxRole;
use latchline_site::model::Place;
use latchline_wiring::item::item_place;
use latchline_wiring::{By, EarthBar, Item, Landing, TerminalSet, hangs_at};

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let columns = vec![
        column(locale, Word::Device, 16).with_role(Role::Names),
        column(locale, Word::Item, 26).with_role(Role::Names),
        column(locale, Word::Value, 34),
        column(locale, Word::Remark, 60),
        column(locale, Word::Done, 6),
    ];
    let mut table = Table::new(Part::Cupboards, locale.word(Word::CupboardsTitle), columns);
    table.has_page_per_heading = true;
    table.note(locale.word(Word::CupboardsNote));
    for place in places(subject) {
        let words = subject.place_in_words(place);
        let place_words = if words.is_empty() { locale.word(Word::NoPlace).to_string() } else { words };
        table.heading(format!("{} {place_words}", locale.word(Word::CardCupboard)));
        for item in subject.order.iter().copied().filter(|item| hangs_at(subject.site, *item, place)) {
            device(subject, item, &mut table);
        }
        bar(subject, subject.wiring.cupboard_bar(place), &mut table);
    }
    for bar_here in &subject.wiring.earth_bars {
        let Some(entrance) = bar_here.door else { continue };
        let place = subject.place_in_words(&bar_here.place);
        let door = format!("{} {}", locale.word(Word::Door), subject.site.entrances[entrance].id);
        table.heading(if place.is_empty() { door } else { format!("{door}  ({place})") });
        bar(subject, Some(bar_here), &mut table);
    }
    table
}

/// Places are one where building, core and floor are.
fn key(place: &Place) -> (Option<usize>, Option<usize>, Option<usize>) {
    (place.building, place.core, place.floor)
}

/// Every place with a cupboard, in walking order: a supply, a distributor, something earthed, or several boxes. A lone branch box has its card.
fn places<'s>(subject: &Subject<'s>) -> Vec<&'s Place> {
    let site = subject.site;
    let mut places: Vec<&Place> = Vec::new();
    for item in &subject.order {
        let place = item_place(site, *item);
        let here = |other: &&Item| key(item_place(site, **other)) == key(place);
        let is_cupboard = match *item {
            Item::Supply(_) => true,
            Item::Box(index) => {
                let boxes = subject.order.iter().filter(|other| matches!(other, Item::Box(_)));
                site.box_model(&site.boxes[index]).role.value == BoxRole::Distributor
                    || boxes.filter(here).count() > 1
                    || subject.wiring.cupboard_bar(place).is_some()
            }
            _ => false,
        };
        if is_cupboard && !places.iter().any(|one| key(one) == key(place)) {
            places.push(place);
        }
    }
    places
}

fn device(subject: &Subject<'_>, item: Item, table: &mut Table) {
    let (site, locale) = (subject.site, &subject.locale);
    let name = subject.name(item);
    let mut add = |what: String, value: Cell, remark: String| {
        table.row(vec![Cell::text(&name), Cell::text(what), value, Cell::text(remark), Cell::Tick]);
    };
    add(
        locale.word(Word::Model).to_string(),
        Cell::text(model_name(subject, item)),
        kind_words(subject, item),
    );
    let mut before = None;
    for (terminal, _) in subject.wiring.of_item(item) {
        let set = terminal.set;
        let is_of_the_bus =
            !matches!(set, TerminalSet::Battery | TerminalSet::Mains | TerminalSet::Screen(_));
        if is_of_the_bus && before != Some(set) {
            let (cables, others) = landed(subject, item, set);
            add(
                format!("{} {}", locale.word(Word::Terminal), set.mark(locale.language)),
                Cell::text(cables),
                others,
            );
        }
        before = Some(set);
    }
    let Item::Supply(index) = item else { return };
    let word = |word: Word| locale.word(word).to_string();
    let model = site.supply_model(&site.supplies[index]);
    let rating = |fuse: Option<Current>| {
        fuse.map_or(Cell::WriteIn, |fuse| Cell::text(format!("{} A", locale.trimmed(fuse.as_amps(), 3))))
    };
    let mains_fuse = model.mains_fuse.as_ref().map(|stated| stated.value);
    add(word(Word::MainsFuse), rating(mains_fuse), word(Word::MainsByElectrician));
    match &model.battery {
        None => add(word(Word::Battery), locale.cell(Word::NoBattery), String::new()),
        Some(battery) => {
            // What a battery is sold as, not what is read at it.
            let voltage = format!("{} V", locale.trimmed(battery.voltage.value.as_volts(), 2));
            let capacity = format!("{} Ah", locale.trimmed(battery.capacity.value.as_amp_hours(), 1));
            let count = site.supplies[index].batteries.value;
            let remark = parallel_batteries(subject, index).unwrap_or_else(|| word(Word::BatteryByItsLeads));
            add(word(Word::Battery), Cell::text(format!("{count} × {voltage}, {capacity}")), remark);
            let fuse = battery.fuse.as_ref().map(|stated| stated.value);
            let remark = if fuse.is_some() { Word::FuseInEachLead } else { Word::FuseNotStated };
            add(word(Word::BatteryFuse), rating(fuse), word(remark));
        }
    }
}

/// The cables that land on a set of terminals, and where they lead.
fn landed(subject: &Subject<'_>, item: Item, set: TerminalSet) -> (String, String) {
    let landings = subject.wiring.of_item(item).filter(|(terminal, _)| terminal.set == set);
    let (mut cables, mut others): (Vec<String>, Vec<String>) = (Vec::new(), Vec::new());
    for landing in landings.flat_map(|(_, landings)| landings) {
        let cable = cable_of(subject, landing);
        if !cables.contains(&cable) {
            cables.push(cable);
        }
        let other = landing.other.map(|other| subject.end_words((other.item, other.set)));
        if let Some(other) = other.filter(|other| !others.contains(other)) {
            others.push(other);
        }
    }
    if cables.is_empty() {
        return (subject.locale.word(Word::Free).to_string(), String::new());
    }
    (cables.join(", "), format!("→ {}", others.join(", ")))
}

fn cable_of(subject: &Subject<'_>, landing: &Landing) -> String {
    let word = |word: Word| subject.locale.word(word).to_string();
    match landing.by {
        By::Conductor { cable, .. } | By::Screen { cable, .. } => {
            subject.wiring.cables[cable].designation.clone()
        }
        By::Unstated { cable } => subject.wiring.unstated[cable].designation.clone(),
        By::EarthConductor => word(Word::EarthConductor),
        By::Link => word(Word::ShortWire),
        By::OwnLead => word(Word::OwnLead),
    }
}

/// The bar for earths and screens, terminal by terminal, and the room on it.
fn bar(subject: &Subject<'_>, bar: Option<&EarthBar>, table: &mut Table) {
    let locale = &subject.locale;
    for (number, terminal) in (1..).zip(bar.map_or(&[][..], |bar| &bar.earthed)) {
        let what = Cell::text(locale.say(&Sentence::BarTerminal { number: &number.to_string() }));
        let (name, value, remark) = match terminal.set {
            TerminalSet::Screen(cable) => (
                subject.wiring.cables[cable].designation.clone(),
                locale.word(Word::ScreenOfCable).to_string(),
                locale.word(Word::ScreenEarthed),
            ),
            _ => (
                subject.name(terminal.item),
                format!("{} {}", locale.word(Word::EarthConductor), earth_size(subject, terminal.item)),
                subject.locale.word(how_earthed(subject, terminal.item)),
            ),
        };
        table.row(vec![Cell::text(name), what, Cell::text(value), Cell::text(remark), Cell::Tick]);
    }
    let (value, remark) = match bar {
        None => (locale.word(Word::NothingToEarth).to_string(), ""),
        Some(bar) => bar_words(locale, bar),
    };
    let cells =
        vec![Cell::Empty, locale.cell(Word::EarthBar), Cell::text(value), Cell::text(remark), Cell::Tick];
    table.row(cells);
}
