//! What every part of the catalogue has.

use crate::keys::bounds::{BOOLEAN, TEXT};
use crate::keys::{Bears, KeySpec, Kind};
use crate::parse::{AssumedKey, Entry, Record};
use latchline_finding::{Both, Money, Origin, Provenance, Sourced};

const AMOUNT: Kind = Kind::Number(0.0, 1e6);
const TITLE: KeySpec = KeySpec::must("title", TEXT, "Title for documents.").bears(Bears::OnNothing);
const GERMAN_TITLE: KeySpec = KeySpec::may(
    "german_title",
    TEXT,
    "Title for documents in German. Without it the title stands there as it is.",
)
.bears(Bears::OnNothing);
const SOURCE: KeySpec = KeySpec::must(
    "source",
    TEXT,
    "Where the figures are from: title and issue of the datasheet, or the standard's table.",
)
.bears(Bears::OnNothing);
const PRICE: KeySpec =
    KeySpec::may("price", AMOUNT, "Price per piece (cables: per metre) in the catalogue's currency.")
        .bears(Bears::OnNothing);
const LABOUR: KeySpec =
    KeySpec::may("labour_minutes", AMOUNT, "Minutes to mount one (cables: to pull a metre).")
        .bears(Bears::OnNothing);
const ASSUMED: KeySpec =
    KeySpec::may("assumed", Kind::KeyNames, "Keys whose values are assumed, not taken from the source.")
        .bears(Bears::OnNothing);
const MEASURED: KeySpec =
    KeySpec::may("measured", Kind::KeyNames, "Keys whose values were measured.").bears(Bears::OnNothing);
const STANDARD: KeySpec =
    KeySpec::may("standard", Kind::KeyNames, "Keys whose values are from a published standard.")
        .bears(Bears::OnNothing);
const REPLACES: KeySpec = KeySpec::may(
    "replaces",
    BOOLEAN,
    "Whether this part takes the place of one of the same name in an earlier catalogue.",
)
.bears(Bears::OnNothing);

const ARTICLE: KeySpec =
    KeySpec::may("article", TEXT, "Number under which it is ordered; the parts list has it.")
        .bears(Bears::OnNothing);
const ENCLOSURE: KeySpec = KeySpec::may(
    "enclosure",
    TEXT,
    "Enclosure, back box or frame that it is mounted in and that is ordered beside it: the parts list counts one for each.",
)
.bears(Bears::OnNothing);
const GLANDS: KeySpec = KeySpec::may(
    "glands",
    TEXT,
    "Cable glands that one of it needs, such as \"4 x M20\": the parts list counts a set for each.",
)
.bears(Bears::OnNothing);

/// First keys of every part that is bought.
pub(super) const PART_KEYS: &[KeySpec] =
    &[TITLE, GERMAN_TITLE, SOURCE, PRICE, LABOUR, ASSUMED, MEASURED, STANDARD, REPLACES, ARTICLE];
/// First keys of what is mounted in an enclosure.
pub(super) const HOUSED_KEYS: &[KeySpec] = &[
    TITLE,
    GERMAN_TITLE,
    SOURCE,
    PRICE,
    LABOUR,
    ASSUMED,
    MEASURED,
    STANDARD,
    REPLACES,
    ARTICLE,
    ENCLOSURE,
    GLANDS,
];
/// First keys of a family, which is not bought.
pub(super) const FAMILY_KEYS: &[KeySpec] =
    &[TITLE, GERMAN_TITLE, SOURCE, ASSUMED, MEASURED, STANDARD, REPLACES];
/// First keys of a table inside a part.
pub(super) const INNER_KEYS: &[KeySpec] = &[ASSUMED, MEASURED, STANDARD];

/// What every part of the catalogue has.
// By hand: two kinds of table share it, and families have no price.
#[derive(Debug, Clone, PartialEq)]
pub struct PartHead {
    /// The name by which site files call it.
    pub name: String,
    /// A plain title for documents, in each language.
    pub title: Both,
    /// Where the figures are from: a datasheet's title and issue, a standard's table.
    pub source: String,
    /// Price per piece (cables: per metre) in the catalogue's currency.
    pub price: Option<Sourced<Money>>,
    /// Currency of a price that is left out, since it is not that of the catalogue and no rate is stated.
    pub price_left_out_in: Option<String>,
    /// Labour to mount or pull it, in minutes per piece (cables: per metre).
    pub labour_minutes: Option<Sourced<f64>>,
    /// Number under which it is ordered.
    pub article: Option<String>,
    /// What it is mounted in and that is ordered beside it.
    pub enclosure: Option<String>,
    /// Cable glands that one of it needs.
    pub glands: Option<String>,
    /// Its keys whose values are assumed, in the order of their table.
    pub assumed: Vec<AssumedKey>,
    /// Where the part is defined.
    pub origin: OriginOfPart,
}

impl PartHead {
    /// The title in both languages: where none is stated in German, it stands as it is.
    fn read_title(record: &Record<'_>, provenance: Provenance) -> Option<Both> {
        let title: String = record.read("title", provenance)?;
        let german: Option<String> = record.read("german_title", provenance);
        Some(match german {
            Some(german) => Both::new(title, german),
            None => Both::same(title),
        })
    }

    /// Reads the first keys of a part, all but [`PartHead::assumed`], which is known when the whole part is read.
    pub(super) fn read(entry: &Entry<'_>, provenance: Provenance) -> Option<Self> {
        let record = &entry.record;
        let has = |key: KeySpec| record.spec.keys.iter().any(|known| known.name == key.name);
        let text = |key: KeySpec| if has(key) { record.read(key.name, provenance) } else { None };
        let is_bought = has(PRICE);
        Some(PartHead {
            name: entry.name.to_string(),
            title: Self::read_title(record, provenance)?,
            source: record.read("source", provenance)?,
            price: if is_bought { record.read("price", provenance) } else { None },
            price_left_out_in: None,
            labour_minutes: if is_bought { record.read("labour_minutes", provenance) } else { None },
            article: text(ARTICLE),
            enclosure: text(ENCLOSURE),
            glands: text(GLANDS),
            assumed: Vec::new(),
            origin: OriginOfPart(record.at(&entry.span)),
        })
    }
}

/// Where a part is defined. Equality ignores it.
#[derive(Debug, Clone, Default)]
pub struct OriginOfPart(pub Origin);

impl PartialEq for OriginOfPart {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}
