//! What belongs to another trade, and what only a licensed person decides: lift, gate, fire alarm, delayed egress.

use crate::{Made, interfaces, resolved, stamp};
use latchline_finding::{Language, Locale, Units};
use latchline_handover::commissioning::{Expected, Spot, Step, sheets};
use latchline_handover::language::Word;
use latchline_handover::subject::Subject;
use latchline_handover::{Cell, Options, Part, Table, tables};
use latchline_pack::cards::card_set;
use latchline_site::catalogue::LockKind;
use latchline_wiring::Item;

fn with<T>(text: &str, language: Language, look: impl FnOnce(&Subject<'_>, &[Step], &[Table]) -> T) -> T {
    let made = Made::of(resolved(text));
    let options = Options { locale: Locale { language, units: Units::Metric }, ..Options::default() };
    let stamp = stamp();
    let subject = Subject::new(&made.input(), &options, &stamp);
    let stages = sheets(&subject).into_iter().flat_map(|sheet| sheet.stages);
    let steps: Vec<Step> = stages.flat_map(|stage| stage.steps).collect();
    look(&subject, &steps, &tables::tables(&subject))
}

/// The sheet of interfaces of the same pack says that nobody works on another trade's system: no step switches or isolates one, or asks for one
/// without power; its owner does, and says so.
#[test]
fn nobody_isolates_or_switches_a_lift_or_a_gate_but_its_owner() {
    for language in [Language::English, Language::German] {
        with(interfaces::SITE, language, |subject, steps, _| {
            let drives = subject.drives();
            let is_lift = |item: &Item| match *item {
                Item::Lock { entrance, lock } => {
                    subject.site.lock(&subject.site.entrances[entrance].locks[lock]).kind.value
                        == LockKind::Lift
                }
                _ => false,
            };
            assert_eq!((drives.len(), drives.iter().filter(|item| is_lift(item)).count()), (2, 1));
            let says = |word: Word| subject.locale.word(word);
            let ours = [
                Word::IsolateMains,
                Word::ProveDead,
                Word::MainsOfItsOwnOn,
                Word::SystemOff,
                Word::SystemOnAgain,
                Word::LockWithoutPower,
                Word::WiredAsDrawn,
                Word::OwnerIsolatesGate,
            ];
            for item in &drives {
                let here: Vec<&Step> =
                    steps.iter().filter(|step| step.spot == Some(Spot::Item(*item))).collect();
                let has = |word: Word| here.iter().any(|step| step.what == says(word));
                for word in &ours[..7] {
                    assert!(!has(*word), "{word:?}");
                }
                assert_eq!(has(Word::OwnerIsolatesLift), is_lift(item));
                assert_eq!(has(Word::OwnerIsolatesGate), !is_lift(item));
                for word in [
                    Word::ProveNoForeignVoltage,
                    Word::WiredToOwner,
                    Word::OwnerSwitchesOn,
                    Word::DriveWithoutCommand,
                ] {
                    assert!(has(word), "{word:?}");
                }
            }
            // A lift has no leaf and no drive that we might secure.
            let lift = says(Word::OwnerIsolatesLift);
            assert!(!["leaf", "Flügel", "lock off"].iter().any(|word| lift.contains(word)), "{lift}");
        });
    }
}

/// A contact of the fire alarm may carry the voltage of another system: the tester is at it before anybody works there, and at every door.
#[test]
fn the_tester_is_at_every_contact_of_others_and_at_every_door() {
    with(interfaces::SITE, Language::English, |subject, steps, _| {
        let proved = |item: Item, words: &str| {
            steps.iter().any(|step| {
                step.spot == Some(Spot::Item(item))
                    && step.instrument == Some(Word::VoltageTester)
                    && step.what.contains(words)
            })
        };
        let all = tables::interfaces(subject);
        assert_eq!(all.len(), 4);
        for interface in all {
            assert!(proved(interface.item(), "no foreign voltage"), "{interface:?}");
        }
        for entrance in &subject.site.entrances {
            assert!(proved(Item::Station(entrance.station), "prove it at the terminals"), "{}", entrance.id);
        }
    });
}

/// The fire alarm's contact at a lock that stays shut without power is in no circuit: nothing is said of a current, nothing tried, nothing signed.
#[test]
fn a_fire_contact_that_stays_free_is_not_tried_and_not_signed_for() {
    let text = interfaces::SITE.replacen(
        "rear = { place = \"A/G\", alarm_inputs = [{ kind = \"fire\", contact = \"normally-open\" }]",
        "rear = { place = \"A/G\", fire_interlock = true",
        1,
    );
    assert_ne!(text, interfaces::SITE);
    with(&text, Language::English, |subject, steps, tables| {
        let table = tables.iter().find(|table| table.part == Part::Interfaces).expect("it is there");
        let rows: Vec<&[Cell]> = table.body().filter(|cells| cells[0].words() == "rear/fire").collect();
        assert_eq!(rows.len(), 1, "{rows:?}");
        assert!(rows[0][2].words().contains("stays free") && rows[0][3].words().contains("nobody signs"));
        let (rear, fire) = ("rear", "rear/fire");
        let here: Vec<&Step> = steps.iter().filter(|step| step.place == rear || step.place == fire).collect();
        for step in &here {
            assert!(
                !step.what.contains("contact releases the door") && !step.what.contains("open one wire"),
                "{step:?}"
            );
        }
        let told = here.iter().filter(|step| step.expected == Expected::Told && step.place == fire).count();
        assert_eq!(told, 1);
        let set = card_set(subject);
        let block = set.cards.iter().flat_map(|card| &card.blocks).find(|block| block.designation == fire);
        assert!(block.is_none_or(|block| block.blanks.is_empty()));
        // The one in the magnet's circuit is tried as before.
        let is_tried =
            |step: &&Step| step.place == "front" && step.what.contains("contact releases the door");
        assert_eq!(steps.iter().filter(is_tried).count(), 1);
    });
}

/// The contact must be made for what flows in it at most: the calculation sheet reckons with it, and every page says that figure.
#[test]
fn what_a_fire_contact_carries_is_one_figure_on_every_page() {
    with(interfaces::SITE, Language::English, |subject, _, tables| {
        let of = |part: Part| tables.iter().find(|table| table.part == part).expect("it is there");
        let row = of(Part::Interfaces)
            .body()
            .find(|cells| cells[0].words() == "front/fire" && cells[1].words() == "It carries");
        let carries = row.expect("a row")[2].words().split(',').next().unwrap_or_default().to_string();
        let current = of(Part::Doors).body().find(|cells| {
            cells[0].words() == "front" && cells[1].words() == "Lock 1" && cells[2].words() == "Current"
        });
        let current = current.expect("a current");
        assert_eq!(subject.locale.cell_text(&current[3], None), carries);
        assert!(current[4].words().contains("rated 0.250 A"), "{:?}", current[4]);
        let reckoned = of(Part::Calculations)
            .body()
            .any(|cells| cells.iter().any(|cell| cell.words().contains(&format!("I = {carries}"))));
        assert!(reckoned, "{carries} in the calculations");
    });
}

/// Times as stated in the plan; that the alarm and loss of power end a delay is what codes ask of one (NFPA 101, 7.2.1.6.1, from memory).
#[test]
fn a_delayed_egress_is_timed_and_its_two_ends_are_tried() {
    let lock = "model = \"magnet-24\",";
    let text = interfaces::SITE.replacen(lock, &format!("{lock} delayed_egress = \"15 s\","), 1);
    with(&text, Language::English, |_, steps, _| {
        let here: Vec<&Step> = steps.iter().filter(|step| step.place == "front/lock").collect();
        let timed = here.iter().find(|step| step.what.contains("opens after 15")).expect("a time");
        let Expected::Between(span, _) = timed.expected else { panic!("a range") };
        // By hand: 10 % early and half a second by hand; never later but for the hand.
        assert_eq!((span.nominal, span.highest), (15.0, 15.5));
        assert!((span.lowest - 13.0).abs() < 1e-9);
        assert_eq!(timed.instrument, Some(Word::Stopwatch));
        let says = |words: &str| here.iter().any(|step| step.what.contains(words));
        assert!(says("the fire alarm ends it") && says("Without power there is no delay"));
        assert!(says("local codes"));
        assert!(!says("The exit button opens."), "at once it does not");
    });
}
