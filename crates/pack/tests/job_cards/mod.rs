//! Job cards against the wiring model and against the tables of schedule and commissioning.

use crate::{Made, resolved, stamp};
use latchline_drawing::job_card::{CardSet, CardStep, StripSet};
use latchline_finding::{Language, Locale};
use latchline_handover::job_cards::{CardKind, JobCards};
use latchline_handover::{Cell, Options, Paper, Part, Subject, Table, tables};
use latchline_pack::cards::card_set;
use latchline_pack::pictures;
use latchline_scene::font::CAPITAL_EM;
use latchline_scene::{Area, Node};
use latchline_site::model::Site;
use std::collections::{BTreeMap, BTreeSet};

/// Everything that the checks look at.
struct Shown<'a> {
    subject: Subject<'a>,
    set: CardSet,
    tables: Vec<Table>,
}

fn with_shown(made: &Made, options: &Options, look: impl FnOnce(&Shown<'_>)) {
    let stamp = stamp();
    let subject = Subject::new(&made.input(), options, &stamp);
    let set = card_set(&subject);
    let tables = tables::tables(&subject);
    look(&Shown { subject, set, tables });
}

impl Shown<'_> {
    fn table(&self, part: Part) -> &Table {
        self.tables.iter().find(|table| table.part == part).expect("the part is there")
    }
}

/// Terminals, what lands on them and where it leads, as many times as they are drawn.
type Landings = BTreeMap<(String, String, String, String, String), usize>;

fn drawn(set: &CardSet) -> Landings {
    let mut found = Landings::new();
    for block in set.cards.iter().flat_map(|card| &card.blocks) {
        for StripSet { mark, terminals } in &block.strip {
            for terminal in terminals {
                let mut add = |cable: &str, other: &str| {
                    let cable = cable.split(", pair ").next().unwrap_or_default();
                    // The card says the cross-section of an earth conductor, which is a remark in the schedule.
                    let cable = match cable.split_once(" mm² Cu") {
                        Some((named, _)) => {
                            named.trim_end_matches(|sign: char| sign.is_ascii_digit()).trim_end()
                        }
                        None => cable,
                    };
                    let key = [&block.designation, mark, &terminal.pole, cable, other].map(str::to_string);
                    *found.entry(key.into()).or_default() += 1;
                };
                terminal.wires.iter().for_each(|wire| add(&wire.cable, &wire.other));
                if terminal.wires.is_empty() {
                    add("", "");
                }
            }
        }
    }
    found
}

fn scheduled(table: &Table) -> Landings {
    let mut found = Landings::new();
    for cells in table.body() {
        let word = |index: usize| cells[index].words().to_string();
        let other = if word(3).is_empty() { String::new() } else { word(7) };
        *found.entry((word(0), word(1), word(2), word(3), other)).or_default() += 1;
    }
    found
}

/// Number of a step with what is expected, without the letter of its stage.
fn figures<'s>(steps: impl Iterator<Item = &'s CardStep>) -> BTreeMap<(bool, String), [String; 3]> {
    use latchline_drawing::job_card::CardPower;
    let key = |step: &CardStep| (step.power == CardPower::On, step.number[1..].to_string());
    let mut found = BTreeMap::new();
    for step in steps {
        assert!(found.insert(key(step), step.values.clone()).is_none(), "{} stands twice", step.number);
    }
    found
}

pub(crate) fn check(site: Site) {
    let made = Made::of(site);
    with_shown(&made, &Options::default(), |shown| {
        // Every terminal once, joined to what the schedule joins it to.
        let (cards, schedule) = (drawn(&shown.set), scheduled(shown.table(Part::Wiring)));
        assert_eq!(cards, schedule, "terminals of the cards and of the wiring schedule");
        let model: BTreeSet<String> =
            shown.subject.wiring.terminals.keys().map(|terminal| shown.subject.name(terminal.item)).collect();
        let names: BTreeSet<String> = cards.keys().map(|key| key.0.clone()).collect();
        assert_eq!(names, model, "every item of the model");
        // Every step of the commissioning sheets on one card, or in the order of work.
        let mut all =
            figures(shown.set.cards.iter().flat_map(|card| &card.blocks).flat_map(|block| &block.steps));
        let locale = &shown.subject.locale;
        let order: BTreeSet<String> =
            shown.table(Part::OrderOfWork).body().map(|cells| cells[0].words().to_string()).collect();
        for (part, is_live) in [(Part::BeforePower, false), (Part::Live, true)] {
            let mut letter = String::new();
            for row in &shown.table(part).rows {
                let cells = match row {
                    latchline_handover::Row::Heading(words) => {
                        letter = words.chars().take(1).collect();
                        continue;
                    }
                    latchline_handover::Row::Cells(cells) => cells,
                };
                let expected = [4, 5, 6].map(|index| locale.cell_text(&cells[index], None));
                // A row of steps that are alike has the first number and the last.
                let numbers = match &cells[0] {
                    Cell::Count(number) => *number..=*number,
                    cell => {
                        let (first, last) = cell.words().split_once('–').expect("a step without number");
                        first.parse().expect("a number")..=last.parse().expect("a number")
                    }
                };
                for number in numbers {
                    match all.remove(&(is_live, number.to_string())) {
                        Some(values) => assert_eq!(values, expected, "step {number} of {part}"),
                        None => {
                            assert!(
                                order.contains(&format!("{letter}{number}")),
                                "step {letter}{number} is lost"
                            )
                        }
                    }
                }
            }
        }
        assert!(all.is_empty(), "steps that no sheet has: {all:?}");
        places(shown);
    });
    let german = Locale { language: Language::German, ..Locale::default() };
    for (locale, paper) in [(Locale::default(), Paper::A4), (german, Paper::Letter)] {
        let options = Options { locale, paper, only: vec![Part::JobCards], ..Options::default() };
        with_shown(&made, &options, sheets);
    }
}

/// A card for each door; every device and run on one card; neighbours in walking order.
fn places(shown: &Shown<'_>) {
    let (site, cards) = (shown.subject.site, JobCards::new(&shown.subject));
    let doors = cards.cards.iter().filter(|card| matches!(card.kind, CardKind::Door(_))).count();
    assert_eq!(doors, site.entrances.len());
    let mut runs: Vec<usize> = cards.cards.iter().flat_map(|card| card.runs.iter().copied()).collect();
    runs.sort_unstable();
    assert_eq!(runs, (0..site.runs.len()).collect::<Vec<_>>());
    let devices: Vec<_> = cards
        .cards
        .iter()
        .flat_map(|card| &card.items)
        .filter(|item| shown.subject.order.contains(item))
        .collect();
    assert_eq!(devices.len(), shown.subject.order.len());
    // The first device of each card comes after that of the card before.
    let firsts =
        cards.cards.iter().map(|card| shown.subject.order.iter().position(|item| *item == card.items[0]));
    assert!(firsts.collect::<Vec<_>>().is_sorted());
}

/// Least height of capitals on the cards (ISO 3098, nominal size 1.8), but for the figures of switches at true scale.
const LEAST_MM: f64 = 1.8;

fn sheets(shown: &Shown<'_>) {
    let drawings = pictures::drawings(&shown.subject);
    let mut elements: Vec<String> = Vec::new();
    for scene in &drawings[0].sheets {
        let sheet = Area::new(0.0, 0.0, scene.width_mm, scene.height_mm);
        let mut texts: Vec<(String, Area)> = Vec::new();
        scene.root.visit(&mut |node| {
            if let Node::Text(text, _) = node {
                assert!(!text.text.contains('…'), "{} is cut short", text.text);
                assert!(sheet.contains(&text.area()), "{:?} leaves the sheet", text.text);
                texts.push((text.text.clone(), text.area()));
            }
        });
        small_letters(&scene.root, false);
        for (index, (words, area)) in texts.iter().enumerate() {
            for (other, further) in &texts[index + 1..] {
                // The boxes of two lines touch by less than this: from ascent to descent they are higher than the line.
                let inner = Area::new(area.x + 0.1, area.y + 0.3, area.width - 0.2, area.height - 0.6);
                assert!(!inner.overlaps(&further.grown(-0.1)), "{words:?} over {other:?} in {}", scene.title);
            }
        }
        let of_scene = scene.root.elements();
        elements.extend(of_scene.into_iter().map(str::to_string));
    }
    let blocks: usize = shown.set.cards.iter().map(|card| card.blocks.len()).sum();
    let unique: BTreeSet<&String> = elements.iter().collect();
    assert_eq!(unique.len(), elements.len(), "no element twice");
    assert!(elements.len() >= blocks);
}

/// Looks at every text outside pictures of switches and circuits.
fn small_letters(group: &latchline_scene::Group, is_picture: bool) {
    let is_picture = is_picture || matches!(group.role.kind, "switch" | "lock-wiring" | "alarm-wiring");
    for node in &group.nodes {
        match node {
            Node::Group(group) => small_letters(group, is_picture),
            Node::Text(text, _) if !is_picture => {
                let height = text.size_mm * CAPITAL_EM;
                assert!(height >= LEAST_MM - 1e-9, "{:?} has capitals of {height:.2} mm", text.text);
                if text.bold && text.size_mm >= 3.7 {
                    assert!(height >= 2.5);
                }
            }
            _ => {}
        }
    }
}

#[test]
fn the_demo_and_every_kind_of_lock() {
    check(resolved(include_str!("../../../drawing/src/wiring/every_lock.toml")));
}

#[test]
fn a_failing_site_says_so_on_every_card() {
    let text = crate::site_text(&[(8, 0), (8, 0)], "F", 1).replace("\"12 m\"", "\"900 m\"");
    let made = Made::of(resolved(&text));
    with_shown(&made, &Options { only: vec![Part::JobCards], ..Options::default() }, |shown| {
        let warning = tables::error_line(&shown.subject).expect("it fails");
        for scene in &pictures::drawings(&shown.subject)[0].sheets {
            let mut says = 0.0_f64;
            scene.root.visit(&mut |node| {
                if let Node::Text(text, _) = node {
                    says = says.max(if text.text == warning { text.size_mm * CAPITAL_EM } else { 0.0 });
                }
            });
            assert!(says >= 2.0, "{}", scene.title);
        }
    });
}

const DEMO: &str = include_str!("../../../latchline/src/demo/site.toml");

/// English: one sheet each. German, whose words are longer: three of sixteen cards go on on a second sheet, and none on a third.
#[test]
fn nearly_every_card_of_the_demo_is_one_sheet() {
    let made = Made::of(resolved(DEMO));
    for (language, most_on_two) in [(Language::English, 0), (Language::German, 0)] {
        let locale = Locale { language, ..Locale::default() };
        let options = Options { locale, only: vec![Part::JobCards], ..Options::default() };
        with_shown(&made, &options, |shown| {
            let drawings = pictures::drawings(&shown.subject);
            let titles: Vec<&str> = drawings[0].sheets.iter().map(|sheet| sheet.title.as_str()).collect();
            let cards = shown.set.cards.len();
            assert!((cards..=cards + most_on_two).contains(&titles.len()), "{language:?}: {titles:#?}");
            let sheets_of = |title: &str| titles.iter().filter(|other| **other == title).count();
            assert!(titles.iter().all(|title| sheets_of(title) <= 2), "{language:?}: {titles:#?}");
        });
    }
}

/// The steps that rows of the order of work stand for, row by row: "D98–D127" are thirty.
fn steps_of_rows(shown: &Shown<'_>) -> Vec<Vec<(char, usize)>> {
    let step = |words: &str| {
        let letter = words.chars().next().expect("a letter");
        (letter, words[1..].parse::<usize>().expect("a number"))
    };
    let rows = shown.table(Part::OrderOfWork).body().map(|cells| cells[0].words().to_string());
    let rows = rows.filter(|words| !words.is_empty()).map(|words| {
        let parts = words.split(", ").flat_map(|part| {
            let (first, last) = part.split_once('–').unwrap_or((part, part));
            let (first, last) = (step(first), step(last));
            (first.1..=last.1).map(move |number| (first.0, number)).collect::<Vec<_>>()
        });
        parts.collect()
    });
    rows.collect()
}

#[test]
fn every_step_stands_in_one_row_of_the_order_of_work() {
    for text in [DEMO, include_str!("../../../drawing/src/wiring/every_lock.toml")] {
        let made = Made::of(resolved(text));
        let options = Options { only: vec![Part::OrderOfWork], ..Options::default() };
        with_shown(&made, &options, |shown| {
            let mut all: Vec<(char, usize)> = steps_of_rows(shown).concat();
            all.sort_unstable();
            // Each of both sheets counts from 1, its stages in the order of their letters.
            let goes_on = |two: &[(char, usize)]| {
                let [(stage, number), (next_stage, next)] = [two[0], two[1]];
                next == number + 1 || next_stage > stage && next == 1
            };
            let odd = all.windows(2).find(|two| !goes_on(two));
            assert_eq!(odd, None, "a step stands in two rows, or in none");
            assert_eq!(all.first().map(|step| step.1), Some(1));
            assert_eq!(all.iter().filter(|(_, number)| *number == 1).count(), 2, "both sheets");
        });
    }
}

/// What stands at a door is dead only once its supply is isolated: its card names the card on which that is done.
#[test]
fn a_card_names_the_card_on_which_its_supply_is_isolated() {
    let made = Made::of(resolved(DEMO));
    with_shown(&made, &Options::default(), |shown| {
        let cards = JobCards::new(&shown.subject);
        let mut told = 0;
        for step in shown.set.cards.iter().flat_map(|card| &card.blocks).flat_map(|block| &block.steps) {
            let Some((_, rest)) = step.what.split_once("dead only once ") else { continue };
            let (supply, rest) = rest.split_once(" is isolated (").expect("it says where");
            let (steps, rest) = rest.split_once(", card ").expect("it says on which card");
            let card: usize =
                rest.split(')').next().and_then(|number| number.parse().ok()).expect("a number");
            let names: Vec<String> =
                cards.cards[card - 1].items.iter().map(|item| shown.subject.name(*item)).collect();
            assert!(names.iter().any(|name| name == supply), "{supply} on card {card}: {names:?}");
            assert!(steps.starts_with('B'), "{steps}");
            told += 1;
        }
        assert_eq!(told, shown.subject.site.entrances.len());
    });
}

/// Where a contact ends at another system, its card says at which of its terminals, or has room to write it.
#[test]
fn a_card_names_the_terminals_of_the_other_system() {
    let drive = "model = \"gate-contact\"";
    let text = include_str!("../../../drawing/src/wiring/every_lock.toml");
    assert!(text.contains(drive));
    let stated = text.replacen(drive, &format!("{drive}, owner_terminals = \"X7 3 and 4\""), 1);
    for (text, is_stated) in [(text.to_string(), false), (stated, true)] {
        let made = Made::of(resolved(&text));
        with_shown(&made, &Options::default(), |shown| {
            let blocks = || shown.set.cards.iter().flat_map(|card| &card.blocks);
            let says = blocks().flat_map(|block| &block.lines).any(|line| line.ends_with(": X7 3 and 4"));
            let asks = |block: &latchline_drawing::job_card::CardBlock| {
                block.blanks.iter().any(|blank| blank == "Terminals of the other system")
            };
            assert_eq!(says, is_stated);
            assert!(is_stated || blocks().any(|block| block.element == "gate/lock" && asks(block)));
        });
    }
}
