//! A lock's cable: the question of `latchline ask lock`.

use super::asked::{Answered, Book, Kind, Question};
use super::fields::{cable_field, called, choice, chosen};
use super::ruler::{Ruler, Scale};
use crate::refused::Refused;
use latchline_finding::Locale;
use latchline_reach::default_question;
use latchline_reach::telephone::{
    LockWay, dry_contact_said, lock_cable, lock_said, takes_dry_contact, usual_family,
};
use latchline_words::office::Label;
use maud::html;
use serde::Deserialize;

/// As an address asks it.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(crate) struct Lock {
    lock: String,
    cable: String,
    length: String,
    #[serde(rename = "in")]
    unit: String,
    /// Whether the cable runs outdoors: "1", or nothing.
    outdoors: String,
}

impl Question for Lock {
    const KIND: Kind = Kind::Lock;

    fn answered(&self, book: &Book, locale: Locale) -> Result<Answered, Refused> {
        let language = locale.language;
        let say = |label: Label| label.say(language);
        let catalogue = book.loaded.catalogue();
        let lock = chosen(&self.lock, "strike-12", catalogue.locks.contains_key(&self.lock));
        let cable = called(catalogue, &self.cable, "flex-1.0");
        let metres = Scale { least: 1.0, most: 200.0, step: 1.0, usual: 8.0, tick: 50.0 };
        let feet = Scale { least: 1.0, most: 700.0, step: 1.0, usual: 25.0, tick: 100.0 };
        let ruler = Ruler::new(metres, feet, locale);
        let length_m = ruler.asked_m(&self.length, &self.unit);
        let outdoors = self.outdoors == "1";
        let question = usual_family(catalogue).and_then(|family| default_question(catalogue, family));
        let found = question.as_ref().and_then(|question| {
            let (family, door, supply) = (&*question.family, &*question.door, &*question.supply);
            let way = LockWay { lock, length_m, outdoors, family, door, supply };
            lock_cable(&book.sources, &book.loaded, &way, cable)
        });
        let is_dry = takes_dry_contact(catalogue, lock);
        let lines = match is_dry {
            true => dry_contact_said(lock, length_m, locale),
            false => lock_said(lock, length_m, found.as_ref(), locale),
        };
        let locks = catalogue
            .locks
            .values()
            .map(|one| (one.head.name.clone(), one.head.title.of(locale.language).to_string()));
        let mut question = vec![
            (say(Label::Lock), lock.to_string()),
            (say(Label::Cable), cable.to_string()),
            (say(Label::LockLength), ruler.words(length_m)),
        ];
        if outdoors {
            question.push((say(Label::CableOutdoors), String::from("✓")));
        }
        Ok(Answered {
            question,
            lines,
            works: is_dry
                || found.as_ref().is_some_and(|found| found.holds() || found.holds_doubled().is_some()),
            form: html! {
                (choice("lock", Label::Lock, &locks.collect::<Vec<_>>(), lock, language))
                (cable_field(catalogue, cable, language))
                (ruler.slider("length", Label::LockLength, length_m))
                (ruler.unit_field())
                div.field.check { input #outdoors type="checkbox" name="outdoors" value="1" checked[outdoors]; label for="outdoors" { (say(Label::CableOutdoors)) } }
            },
            more: html! {},
        })
    }
}
