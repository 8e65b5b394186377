//! The cable that is meant.

use latchline_site::catalogue::{Cable, Catalogue};
use latchline_site::parse::NameBudget;

/// Why no cable, or more than one, is meant.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoCable {
    /// Cables that it may be, by name; every one if nothing fits.
    pub choices: Vec<String>,
    /// The name that was probably meant, if it is one slip away from a name of one cable, and that cable.
    pub nearly: Option<(String, String)>,
}

/// The cable that is meant by a name, an everyday name of the catalogue ("bell wire"), words of its title or the size of its
/// conductor ("0.5", "1.5 mm²").
///
/// # Errors
/// [`NoCable`] if none is meant, or more than one.
pub fn cable_called<'c>(catalogue: &'c Catalogue, asked: &str) -> Result<&'c Cable, NoCable> {
    if let Some(cable) = catalogue.cables.get(asked) {
        return Ok(cable);
    }
    let written = asked;
    let asked = plain(asked);
    let every = || NoCable {
        choices: catalogue.cables.keys().cloned().collect(),
        nearly: nearly_called(catalogue, &asked),
    };
    if asked.is_empty() {
        return Err(every());
    }
    let words: Vec<&str> = asked.split(' ').collect();
    let by_name = |cable: &&Cable| plain(&cable.head.name) == asked;
    let called = |cable: &&Cable| cable.called.iter().any(|called| plain(&called.value) == asked);
    let nearly = |cable: &&Cable| cable.is_called(written);
    // "J-Y(St)Y" without the size of its conductors is more than one cable.
    let begins = |cable: &&Cable| cable.called_begins(written);
    let size = |cable: &&Cable| {
        let size = asked.trim_end_matches("mm²").trim_end_matches("mm2").trim_end_matches("mm").trim_end();
        cable.head.name.rsplit('-').next() == Some(size)
    };
    let title = |cable: &&Cable| {
        let title = plain(&cable.head.title);
        let known: Vec<&str> = title.split(' ').collect();
        words.iter().all(|word| known.contains(word))
    };
    let ways: [&dyn Fn(&&Cable) -> bool; 6] = [&by_name, &called, &size, &nearly, &title, &begins];
    for fits in ways {
        let found: Vec<&Cable> = catalogue.cables.values().filter(|cable| fits(cable)).collect();
        match found[..] {
            [] => {}
            [cable] => return Ok(cable),
            _ => {
                let choices = found.iter().map(|cable| cable.head.name.clone()).collect();
                return Err(NoCable { choices, nearly: None });
            }
        }
    }
    Err(every())
}

/// The name, or everyday name, that was probably meant, with its cable.
fn nearly_called(catalogue: &Catalogue, asked: &str) -> Option<(String, String)> {
    let names = catalogue.cables.values().flat_map(|cable| {
        let called = cable.called.iter().map(|called| called.value.as_str());
        std::iter::once(cable.head.name.as_str()).chain(called).map(move |name| (name, cable))
    });
    let known: Vec<(String, &str, &Cable)> = names.map(|(name, cable)| (plain(name), name, cable)).collect();
    let nearest = NameBudget::default().nearest(asked, known.iter().map(|(plain, ..)| plain.as_str()));
    let first = nearest.first()?;
    let (_, name, cable) = known.iter().find(|(plain, ..)| plain == first)?;
    Some(((*name).to_string(), cable.head.name.clone()))
}

/// Lower case, with one space between words whatever stood there.
fn plain(text: &str) -> String {
    let lower = text.to_lowercase();
    let words = lower.split([' ', '-', '_', ',', '(', ')', '\t']).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join(" ")
}
