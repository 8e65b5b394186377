//! What a device's label says, and the text of its QR code.

use super::devices::{address_words, kind_words};
use crate::language::{Sentence, Word};
use crate::subject::Subject;
use latchline_wiring::Item;

/// What stands on the label of a device.
pub struct LabelFacts {
    /// Its designation.
    pub name: String,
    /// What it is.
    pub what: String,
    /// Where it is.
    pub place: String,
    /// Address and switch positions.
    pub address: String,
    /// Revision and errors.
    pub foot: String,
    site: String,
}

/// Characters of a site's title in a code: a small label must scan. Of a longer title as many whole words.
const MOST_TITLE: usize = 48;

/// A title that fits a code.
fn short_title(title: &str) -> String {
    let mut short = String::new();
    for word in title.split_whitespace() {
        if short.chars().count() + 1 + word.chars().count() > MOST_TITLE {
            break;
        }
        if !short.is_empty() {
            short.push(' ');
        }
        short.push_str(word);
    }
    // One word longer than that is the only one to be cut.
    if short.is_empty() { title.chars().take(MOST_TITLE).collect() } else { short }
}

/// Revision and errors, on every label.
pub fn label_foot(subject: &Subject<'_>) -> String {
    let revision = format!("{} {}", subject.locale.word(Word::Revision), subject.stamp.revision);
    match subject.errors() {
        0 => revision,
        errors => {
            let count = errors.to_string();
            let short = subject.locale.say(&Sentence::ErrorsShort { count: &count });
            format!("{short} · {revision}")
        }
    }
}

/// The facts of one device.
pub fn label_facts(subject: &Subject<'_>, device: Item) -> LabelFacts {
    let (address, _) = address_words(subject, device);
    LabelFacts {
        name: subject.name(device),
        what: kind_words(subject, device),
        place: subject.place_words(device),
        address,
        foot: label_foot(subject),
        site: short_title(&subject.site.title),
    }
}

impl LabelFacts {
    /// The facts as the text of a code: designation, site, address, revision, a line each.
    pub fn code_text(&self) -> String {
        let lines = [&self.name, &self.site, &self.address, &self.foot];
        let filled: Vec<&str> =
            lines.into_iter().map(|line| line.trim()).filter(|line| !line.is_empty()).collect();
        filled.join("\n")
    }
}
