//! The cable that is meant.

use latchline_finding::Language;
use latchline_site::catalogue::{Cable, Catalogue};
use latchline_site::keys::Gauge;
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
    let together = |text: &str| plain(text).replace(' ', "");
    let by_name = |cable: &&Cable| together(&cable.head.name) == together(written);
    let sized = Size::in_text(written);
    // "0.5 mm" is the diameter of a wire and "0.5 mm²" a cross-section: a cable of the other kind carries another current.
    let is_of_unit = |cable: &Cable| sized.is_none_or(|size| size.is_of(cable));
    let called = |cable: &&Cable| {
        let is_it = |called: &str| {
            plain(called) == asked || sized.is_some_and(|size| called.parse() == Ok(size.number))
        };
        is_of_unit(cable) && cable.called.iter().any(|called| is_it(&called.value))
    };
    let nearly = |cable: &&Cable| is_of_unit(cable) && cable.is_called(written);
    // "J-Y(St)Y" without the size of its conductors is more than one cable.
    let begins = |cable: &&Cable| cable.called_begins(written);
    let size = |cable: &&Cable| sized.is_some_and(|size| size.is_in_name(cable) && size.is_of(cable));
    let title = |cable: &&Cable| {
        let titles = Language::ALL.map(|language| plain(cable.head.title.of(language)));
        titles.iter().any(|title| {
            let known: Vec<&str> = title.split(' ').collect();
            words.iter().all(|word| known.contains(word))
        })
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

/// The size of a conductor as people write it: `0.5`, `0,5 mm`, `1mm2`, `1.5 mm²`, `1.5 qmm`.
#[derive(Debug, Clone, Copy)]
struct Size {
    number: f64,
    /// Whether it is a cross-section, or the diameter of a wire; `None` where no unit is written.
    is_area: Option<bool>,
}

impl Size {
    fn in_text(text: &str) -> Option<Self> {
        let text = text.trim().to_lowercase().replace(',', ".");
        let units =
            [("mm²", true), ("mm2", true), ("mm^2", true), ("sqmm", true), ("qmm", true), ("mm", false)];
        let found = units.iter().find_map(|(unit, is_area)| Some((text.strip_suffix(unit)?, *is_area)));
        let (number, is_area) = found.map_or((&*text, None), |(number, is_area)| (number, Some(is_area)));
        let number: f64 = number.trim_end().parse().ok()?;
        (number.is_finite() && number > 0.0).then_some(Size { number, is_area })
    }

    /// Whether the conductors of a cable are measured so.
    fn is_of(self, cable: &Cable) -> bool {
        match self.is_area {
            None => true,
            Some(is_area) => is_area == matches!(cable.gauge.value, Gauge::CrossSection { .. }),
        }
    }

    /// Whether the name of a cable ends in it.
    fn is_in_name(self, cable: &Cable) -> bool {
        let last = cable.head.name.rsplit('-').next();
        last.is_some_and(|last| last.parse() == Ok(self.number))
    }
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
