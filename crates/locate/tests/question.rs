//! What is asked on the telephone: it narrows, and what is printed of an answer is what the answer says once it is given.

use crate::{checked, located, with_demo};
use latchline_locate::{Options, Plant, Question, Rates, SymptomKind, question};

fn asked(plant: &Plant<'_>, items: &[&str]) -> Option<Question> {
    let found = located(plant, items);
    let evidence = checked(plant, items).evidence;
    question(plant, &evidence, &Rates::built_in(), &Options::default(), &found)
}

#[test]
fn an_answer_leaves_what_was_printed_of_it() {
    with_demo(|plant| {
        for items in [&["A-12=dead"][..], &["A-12=no-picture"], &["A-12=dead", "A-32=dead"]] {
            let asked = asked(plant, items).unwrap_or_else(|| panic!("{items:?}: nothing is asked"));
            let name = plant.site.stations[asked.station].id.to_string();
            assert!(items.iter().all(|item| !item.starts_with(&format!("{name}="))), "{items:?}: {name}");
            assert!((asked.answers.iter().map(|one| one.probability).sum::<f64>() - 1.0).abs() < 1e-12);
            assert_eq!(asked.answers[0].told, SymptomKind::Works);
            // What is open about the place after the answer, by its definition, from the enquiry made again with it.
            let open = |items: &[&str]| -> f64 {
                let found = located(plant, items);
                let none = found.ranking.none_of_these;
                let shares = found.places.iter().map(|place| place.probability).chain([none]);
                shares.filter(|share| *share > 0.0).map(|share| -share * share.log2()).sum()
            };
            let mut after = 0.0;
            for answer in &asked.answers {
                let told = format!("{name}={}", answer.told.name());
                let items: Vec<&str> = items.iter().copied().chain([told.as_str()]).collect();
                let given = located(plant, &items);
                assert_eq!(given.places[0].place, answer.places[0].place, "{items:?}");
                for (said, promised) in given.places.iter().zip(&answer.places).take(5) {
                    assert!((said.probability - promised.probability).abs() < 1e-9, "{items:?}");
                }
                after += answer.probability * open(&items);
            }
            assert!((open(items) - after - asked.bits).abs() < 1e-9, "{items:?}");
        }
    });
}

/// Two that are dead on two runs of one box: whoever else behind that box is dead too points to what they share.
#[test]
fn the_answer_parts_what_two_share_from_what_each_has() {
    with_demo(|plant| {
        let items = ["A-12=dead", "A-13=dead"];
        let asked = asked(plant, &items).expect("a question");
        let [works, dead] = &asked.answers;
        assert_ne!(works.places[0].place, dead.places[0].place);
    });
}

#[test]
fn nothing_is_asked_where_a_meter_was_there_or_the_list_tells() {
    with_demo(|plant| {
        assert_eq!(asked(plant, &["A-12=dead", "A-12=47V"]), None);
        assert_eq!(asked(plant, &["A-12=works"]), None);
        let list: String = plant.site.stations.iter().skip(3).map(|one| format!("{} ", one.id)).collect();
        assert_eq!(asked(plant, &[&format!("found={}", list.trim())]), None);
    });
}
