//! Whether models may be mixed on one supply: the question of `latchline ask mix`.

use super::asked::{Answered, Book, Kind, Question};
use super::fields::{
    calls_asked, calls_field, chosen, family_field, indoor, number, supplies, supply_asked, supply_field,
};
use crate::refused::Refused;
use latchline_finding::Locale;
use latchline_reach::default_question;
use latchline_reach::telephone::{lightest, mix_on_each, mix_said, usual_family};
use latchline_words::office::{Label, OfficeRefusal};
use maud::html;
use serde::Deserialize;
use std::collections::BTreeMap;

/// Most stations of one model.
const MOST: f64 = 100.0;
/// What stands before a model in an address, so that no model is taken for another field.
const COUNT_OF: &str = "n.";

/// As an address asks it: the family, the supply, calls, and how many of each model.
#[derive(Debug, Default, Deserialize)]
#[serde(transparent)]
pub(crate) struct Mix(BTreeMap<String, String>);

impl Mix {
    fn field(&self, name: &str) -> &str {
        self.0.get(name).map_or("", String::as_str)
    }
}

impl Question for Mix {
    const KIND: Kind = Kind::Mix;

    fn answered(&self, book: &Book, locale: Locale) -> Result<Answered, Refused> {
        let language = locale.language;
        let say = |label: Label| label.say(language);
        let catalogue = book.loaded.catalogue();
        let usual = usual_family(catalogue).unwrap_or_default();
        let asked = self.field("family");
        let family = chosen(asked, usual, catalogue.families.contains_key(asked));
        let question = default_question(catalogue, family)
            .ok_or_else(|| Refused::Unfit(OfficeRefusal::FamilyLacksParts.both()))?;
        let models = indoor(catalogue, family);
        let is_asked = models.iter().any(|model| self.0.contains_key(&format!("{COUNT_OF}{model}")));
        let light = lightest(catalogue, family);
        // Where nothing is asked yet: some of the lightest and some of the heaviest.
        let usual_count = |model: &str| match is_asked {
            true => 0.0,
            false if light.as_deref() == Some(model) => 12.0,
            false if question.station == model => 6.0,
            false => 0.0,
        };
        let counts: Vec<(String, usize)> = models
            .into_iter()
            .map(|model| {
                let asked = self.field(&format!("{COUNT_OF}{model}"));
                let count = number(asked, usual_count(&model), 0.0, MOST).round() as usize;
                (model, count)
            })
            .collect();
        let (calls, most_calls) = calls_asked(catalogue, family, self.field("calls"));
        let stated = supply_asked(catalogue, family, self.field("supply"));
        let mix: Vec<(String, usize)> = counts.iter().filter(|(_, count)| *count > 0).cloned().collect();
        let (lines, works) = if mix.is_empty() {
            (vec![say(Label::NothingToMix).to_string()], false)
        } else {
            let supplies = supplies(catalogue, family, stated.as_deref());
            let found = mix_on_each(&book.sources, &book.loaded, &question, &mix, calls, supplies)
                .map_err(|error| Refused::Unfit(error.both()))?;
            (
                mix_said(&question, &mix, calls, &found, locale),
                found.iter().all(|(_, one)| one.limit.is_none()),
            )
        };
        let mut fields = vec![(say(Label::Family), family.to_string())];
        fields.push((
            say(Label::Supply),
            stated.clone().unwrap_or_else(|| say(Label::LargestOfEach).to_string()),
        ));
        fields.push((say(Label::CallsAtOnce), calls.to_string()));
        fields.extend(mix.iter().map(|(model, count)| (say(Label::Station), format!("{count} {model}"))));
        Ok(Answered {
            question: fields,
            lines,
            works,
            form: html! {
                (family_field(catalogue, family, language))
                div #of-family {
                    @for (model, count) in &counts {
                        @let (id, title) = (format!("{COUNT_OF}{model}"), catalogue.stations.get(model).map_or("", |one| one.head.title.of(language)));
                        div.field.count { label for=(id) { (model) " · " (title) } input id=(id) name=(id) inputmode="numeric" value=(count) autocomplete="off"; }
                    }
                    (supply_field(catalogue, family, Label::LargestOfEach, stated.as_deref(), language))
                    (calls_field(most_calls, calls, language))
                }
            },
            more: html! {},
        })
    }
}
