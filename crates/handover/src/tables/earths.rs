//! How surge protectors and screens are earthed, in words.

use crate::language::{Sentence, Word};
use crate::locale::Locale;
use crate::subject::Subject;
use latchline_finding::Units;
use latchline_site::protectors::{self, ProtectorAt};
use latchline_wiring::{EarthBar, Item, Terminal};
use std::collections::BTreeMap;

/// Cross-section of the earth conductor of a surge protector where none is stated: in square millimetres of copper the least
/// that IEC 60364-5-53 asks of an arrester of class II or III (534.4.10; from memory), and the gauge that is not thinner (ASTM B258: 10
/// AWG has 5.26 mm²).
const EARTH: (f64, u32) = (4.0, 10);
/// The same of class I: 4 AWG has 21.2 mm², 6 AWG only 13.3 mm².
const EARTH_OF_CLASS_I: (f64, u32) = (16.0, 4);
/// Letter code of green-and-yellow (IEC 60757), which is kept for protective conductors (IEC 60445).
pub(super) const EARTH_COLOUR: &str = "GNYE";

/// The protector that an item is.
pub(super) fn protector(item: Item) -> Option<ProtectorAt> {
    match item {
        Item::Protector(at) => Some(at),
        _ => None,
    }
}

/// The size of the earth conductor of an item in words: "4 mm² Cu"; of a protector as it is stated, else the assumed one.
pub fn earth_size(subject: &Subject<'_>, item: Item) -> String {
    let locale = &subject.locale;
    match protector(item).and_then(|at| protectors::earth(subject.site, at)) {
        Some(gauge) => format!("{} Cu", locale.gauge(gauge)),
        None => copper(locale, EARTH),
    }
}

fn copper(locale: &Locale, (area_mm2, gauge): (f64, u32)) -> String {
    match locale.units {
        Units::Metric => format!("{} mm² Cu", locale.trimmed(area_mm2, 3)),
        Units::Us => format!("{gauge} AWG Cu"),
    }
}

/// How that conductor is laid, and whether its size is assumed.
pub(super) fn how_earthed(subject: &Subject<'_>, item: Item) -> Word {
    match is_assumed(subject, item) {
        true => Word::ToMainEarth,
        false => Word::ToMainEarthAsStated,
    }
}

fn is_assumed(subject: &Subject<'_>, item: Item) -> bool {
    protector(item).is_some_and(|at| protectors::earth(subject.site, at).is_none())
}

/// What is said of the sizes that are assumed, if one is.
pub(super) fn assumed_note(subject: &Subject<'_>) -> Option<String> {
    let locale = &subject.locale;
    let is_one = subject.wiring.items().into_iter().any(|item| is_assumed(subject, item));
    let (size, class_one) = (copper(locale, EARTH), copper(locale, EARTH_OF_CLASS_I));
    is_one.then(|| locale.say(&Sentence::EarthAssumed { size: &size, class_one: &class_one }))
}

/// The line of the parts list for the earth conductor of a protector.
pub(super) fn part_title(subject: &Subject<'_>, item: Item) -> String {
    let size = &earth_size(subject, item);
    subject.locale.say(&match is_assumed(subject, item) {
        true => Sentence::EarthConductorPartAssumed { size },
        false => Sentence::EarthConductorPart { size },
    })
}

/// Where an earthed terminal leads: the terminal of the bar of its place, or the main earthing terminal.
pub(super) fn earthed_on(subject: &Subject<'_>, terminal: Terminal) -> String {
    match subject.wiring.bar_terminal(terminal) {
        Some(number) => subject.locale.say(&Sentence::BarTerminal { number: &number.to_string() }),
        None => subject.locale.word(Word::MainEarthBar).to_string(),
    }
}

/// How much room a bar has, and to what it is joined.
pub(super) fn bar_words(locale: &Locale, bar: &EarthBar) -> (String, &'static str) {
    let count = bar.earthed.len();
    match (bar.is_outside(), bar.door) {
        (true, _) => (locale.say(&Sentence::DoorBarRoom { count }), locale.word(Word::BarOutside)),
        (false, Some(_)) => (locale.say(&Sentence::DoorBarRoom { count }), locale.word(Word::BarToMainEarth)),
        (false, None) => (locale.say(&Sentence::EarthBarRoom { count }), locale.word(Word::BarToMainEarth)),
    }
}

/// Small parts for the bars, by what they are called: each bar by its terminals, and the conductor that joins each to the earth of its place. The plan
/// states neither, so they have no price and are in no bill.
pub(super) fn bar_parts(subject: &Subject<'_>) -> BTreeMap<String, u64> {
    let locale = &subject.locale;
    let mut parts: BTreeMap<String, u64> = BTreeMap::new();
    for bar in &subject.wiring.earth_bars {
        // One more for the conductor that joins it to the earth of its place.
        let ways = bar.earthed.len() + 1;
        *parts.entry(locale.say(&Sentence::EarthBarPart { ways })).or_default() += 1;
        let joined = locale.word(match bar.is_outside() {
            true => Word::BarConductorOutside,
            false => Word::BarConductor,
        });
        *parts.entry(joined.to_string()).or_default() += 1;
    }
    parts
}
