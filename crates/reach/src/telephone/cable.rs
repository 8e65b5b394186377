//! The cable that is meant.

use latchline_site::catalogue::{Cable, Catalogue};

/// Why no cable, or more than one, is meant.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoCable {
    /// Cables that it may be, by name; every one if nothing fits.
    pub choices: Vec<String>,
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
    let every = || NoCable { choices: catalogue.cables.keys().cloned().collect() };
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
                return Err(NoCable { choices: found.iter().map(|cable| cable.head.name.clone()).collect() });
            }
        }
    }
    Err(every())
}

/// Lower case, with one space between words whatever stood there.
fn plain(text: &str) -> String {
    let lower = text.to_lowercase();
    let words = lower.split([' ', '-', '_', ',', '(', ')', '\t']).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join(" ")
}
