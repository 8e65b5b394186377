//! The table of faults says what the whole reckoning says, in most cases, and is read back as it was written.

use crate::with_demo;
use latchline_finding::StateKind;
use latchline_locate::practise::{Dice, hide};
use latchline_locate::{
    Age, Damaged, Dictionary, Evidence, Options, Plant, Quantity, Rates, hypotheses, locate, reads,
};
use latchline_network::BusState;
use latchline_network::readings::ReadingPlace;

/// Of so many hidden faults ...
const FAULTS: u64 = 60;
/// ... the likeliest cause of the table lies in the class that `locate` names first in at least this share.
const AGREE: f64 = 0.9;
/// Bytes of the table of the demo, at most: it travels in a page for a phone.
const MOST_BYTES: usize = 120_000;

fn table(plant: &Plant<'_>) -> Dictionary {
    Dictionary::new(plant, &Rates::built_in(), Age::InService)
}

#[test]
fn the_table_is_read_back_as_it_was_written_and_is_small() {
    with_demo(|plant| {
        let made = table(plant);
        let bytes = made.to_bytes();
        assert_eq!(Dictionary::of_bytes(&bytes), Ok(made.clone()));
        assert!(bytes.len() < MOST_BYTES, "{} bytes", bytes.len());
        assert!(made.causes() > 500 && made.readings() > 100);
        // Half a table, and one with a byte too many, are refused.
        for length in (0..bytes.len()).step_by(997) {
            assert_eq!(Dictionary::of_bytes(&bytes[..length]), Err(Damaged));
        }
        assert_eq!(Dictionary::of_bytes(&[&bytes[..], &[0]].concat()), Err(Damaged));
        // A changed byte may give another table, and never a panic.
        let mut dice = Dice::new(7);
        for _ in 0..300 {
            let mut changed = bytes.clone();
            let place = (dice.uniform() * changed.len() as f64) as usize;
            changed[place] ^= 1 << ((dice.uniform() * 8.0) as u32);
            if let Ok(other) = Dictionary::of_bytes(&changed) {
                let _ = other.rank(&[]);
            }
        }
    });
}

#[test]
fn the_table_agrees_with_the_whole_reckoning_on_the_first_class() {
    with_demo(|plant| {
        let made = table(plant);
        let rates = Rates::built_in();
        let causes = hypotheses(plant, &rates, Age::InService);
        let state = || BusState::from(StateKind::StandbyDay);
        let mut agreed = 0;
        let mut apart = Vec::new();
        for seed in 0..FAULTS {
            let hidden = hide(plant, &causes, 500 + seed).unwrap();
            let mut dice = Dice::new(seed);
            let mut asked = vec![Quantity::Current { at: ReadingPlace::Supply(0), state: state() }];
            while asked.len() < 5 {
                let station = (dice.uniform() * plant.site.stations.len() as f64) as usize;
                let one = Quantity::Voltage { at: ReadingPlace::Station(station), state: state() };
                if !asked.contains(&one) {
                    asked.push(one);
                }
            }
            // The run that it lies in, if it lies in one, is read alone as well in every second case.
            if let Some(run) = hidden.cause.cause.element.run().filter(|_| seed % 2 == 0) {
                asked.extend([Quantity::Loop { run }, Quantity::Insulation { run }]);
            }
            let measured = asked.iter().filter_map(|one| hidden.answer(one)).collect();
            let evidence = Evidence { measured, ..Evidence::default() };
            let read = reads(&made, plant, &evidence);
            assert_eq!(read.len(), evidence.measured.len(), "every one is in the table");
            let (shares, _) = made.rank(&read);
            let found = locate(plant, &evidence, &rates, &Options { confidence: 0.0, ..Options::default() });
            let is_in_first = found.classes[0].members.iter().any(|place| {
                let (hypothesis, _) = found.cause(*place);
                // What no reading shows stands once for all its places.
                hypothesis.cause.kind == shares[0].kind
                    && (shares[0].element.is_empty()
                        || hypothesis.cause.element.name(plant.site) == shares[0].element)
            });
            agreed += u64::from(is_in_first);
            if !is_in_first {
                let (first, posterior) = found.cause(0);
                apart.push(format!(
                    "{seed}: {:?} {} {:.2}, table {:?} {} {:.2}",
                    first.cause.kind,
                    first.cause.element.name(plant.site),
                    posterior.probability,
                    shares[0].kind,
                    shares[0].element,
                    shares[0].probability
                ));
            }
        }
        let share = agreed as f64 / FAULTS as f64;
        assert!(share >= AGREE, "{share}: {}", apart.join("\n"));
    });
}

#[test]
fn what_does_not_fit_is_left_out_by_its_probability_and_told() {
    with_demo(|plant| {
        let whole = table(plant);
        let most_bytes = whole.to_bytes().len() / 2;
        let small = whole.clone().within(most_bytes);
        assert!(small.to_bytes().len() <= most_bytes);
        assert_eq!(Dictionary::of_bytes(&small.to_bytes()), Ok(small.clone()));
        let (count, prior) = small.left_out();
        assert_eq!(small.causes() + count, whole.causes());
        // The half of the bytes holds the more probable half of the causes.
        assert!(count > 0 && prior > 0.0 && prior < count as f64 / whole.causes() as f64, "{count} {prior}");
        // Nothing read: what was left out is among none of these.
        let (_, none) = small.rank(&[]);
        let (_, none_of_whole) = whole.rank(&[]);
        assert!((none - none_of_whole - prior).abs() < 1e-3, "{none} {none_of_whole} {prior}");
        assert_eq!(whole.clone().within(whole.to_bytes().len()), whole);
    });
}
