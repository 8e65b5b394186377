//! Cables.

use super::head::{INNER_KEYS, PART_KEYS, PartHead};
use crate::keys::bounds::*;
use crate::keys::{Bears, Gauge, KeySpec, Kind, TableSpec, choices, joined, keys};
use crate::parse::Record;
use latchline_finding::quantity::{
    Area, CapacitancePerLength, Current, Decibels, Frequency, InductancePerLength, Length, Ratio, Temperature,
};
use latchline_finding::{Origin, Provenance, Sourced};
use latchline_words::reading::Thing;

choices! {
    /// What a conductor is made of.
    pub enum Material {
        /// Annealed copper.
        Copper = "copper",
        /// Copper-clad aluminium, 10 % copper by volume.
        CladAluminium10 = "clad-aluminium-10",
        /// Copper-clad aluminium, 15 % copper by volume.
        CladAluminium15 = "clad-aluminium-15",
        /// Aluminium.
        Aluminium = "aluminium",
    }
}

choices! {
    /// Where a cable may run.
    pub enum Environment {
        /// Indoors, dry.
        Indoors = "indoors",
        /// Outdoors or damp.
        Outdoors = "outdoors",
        /// In the ground.
        Buried = "buried",
    }
}

choices! {
    /// The colour of a conductor, by the letter codes of IEC 60757; of two colours, one after the other. Green and yellow
    /// together are kept for protective earth.
    pub enum ConductorColour {
        /// Black.
        Black = "BK",
        /// Brown.
        Brown = "BN",
        /// Red.
        Red = "RD",
        /// Orange.
        Orange = "OG",
        /// Yellow.
        Yellow = "YE",
        /// Green.
        Green = "GN",
        /// Blue.
        Blue = "BU",
        /// Violet.
        Violet = "VT",
        /// Grey.
        Grey = "GY",
        /// White.
        White = "WH",
        /// Pink.
        Pink = "PK",
        /// Turquoise.
        Turquoise = "TQ",
        /// White and blue.
        WhiteBlue = "WHBU",
        /// White and orange.
        WhiteOrange = "WHOG",
        /// White and green.
        WhiteGreen = "WHGN",
        /// White and brown.
        WhiteBrown = "WHBN",
        /// White and grey.
        WhiteGrey = "WHGY",
        /// White and red.
        WhiteRed = "WHRD",
        /// White and yellow.
        WhiteYellow = "WHYE",
        /// White and black.
        WhiteBlack = "WHBK",
        /// Grey and pink.
        GreyPink = "GYPK",
        /// Red and blue.
        RedBlue = "RDBU",
    }
}

choices! {
    /// A code of conductor colours.
    pub enum ColourCode {
        /// HD 308 S2, two-core flexible cable: brown, blue.
        Hd308 = "hd-308",
        /// ANSI/TIA-568: white-blue and blue, and so on.
        Tia568 = "tia-568",
        /// DIN 47100: white, brown, green, yellow, and so on.
        Din47100 = "din-47100",
        /// DIN VDE 0815: up to two pairs red and black, white and yellow; more red and blue, then white with another.
        Vde0815 = "vde-0815",
        /// IEC 60708: white and blue, white and orange, and so on up to 25 pairs.
        Iec60708 = "iec-60708",
        /// Numbers on the conductors (EN 50334), no colours.
        Numbered = "numbered",
    }
}

keys! {
    /// A cable. The resistance follows from the conductor size, or is stated.
    pub struct Cable = CABLE Cable after PART_KEYS;
    try read(record, provenance, head: PartHead, gauge: Sourced<Gauge>, line: Option<LineConstants>);

    /// Name, title, source, price per metre.
    field head: PartHead = head;
    /// Size of one conductor: cross-section ("1.5 mm²", with its class), diameter ("0.8 mm"), "24 AWG", or resistance of one
    /// conductor ("84.2 ohm/km").
    gauge: Sourced<Gauge> = must(Kind::Gauge).bears(Bears::OnFlow), by gauge;
    /// Conductor class of IEC 60228 for a cross-section: 1 solid, 2 stranded, 5 flexible.
    key class = may(Kind::Integer(1, 5)).bears(Bears::OnFlow);
    /// Conductor material; the number is the share of copper by volume. Without it copper.
    material: Sourced<Material> = or_known(Kind::Words(Material::WORDS), Material::Copper).bears(Bears::OnFlow);
    /// Whether the strands are tinned. Without it false.
    coated: Sourced<bool> = or(BOOLEAN, false).bears(Bears::OnFlow);
    /// How far the resistance may lie above or below the figure. Without it 0 % for a copper cross-section of IEC 60228's tables,
    /// which give the maximum; for another cross-section what those tables add at 0.5 mm² (4.4 %, flexible 13.1 %), else 5 %, both
    /// assumed.
    resistance_tolerance: Sourced<Ratio> = or_assumed(TOLERANCE).bears(Bears::OnFlow),
        by resistance_tolerance(record, provenance, &gauge, material.value, coated.value);
    /// Pairs in the cable. Without it 1.
    pairs: Sourced<u32> = or(Kind::Integer(1, 200), 1);
    /// Colours of its conductors by the letter codes of IEC 60757, pair by pair: that of `+`, then that of `−`. Without it those of
    /// `colour_code`.
    colours: Sourced<Vec<ConductorColour>> =
        or(Kind::List(&Kind::Words(ConductorColour::WORDS)), Vec::new()).bears(Bears::OnNothing);
    /// Code of colours that it follows in the country where it is sold. Without it, and without `colours`, a convention is printed,
    /// which every sheet with colours says: "hd-308" for a twin with mains insulation, "tia-568" for four pairs of an AWG size, else
    /// "din-47100".
    colour_code: Option<Sourced<ColourCode>> = may(Kind::Words(ColourCode::WORDS)).bears(Bears::OnNothing);
    /// Where it may run. Without it indoors.
    environments: Sourced<Vec<Environment>> =
        or(Kind::List(&Kind::Words(Environment::WORDS)), vec![Environment::Indoors]);
    /// Whether it has a screen. Without it false.
    screened: Sourced<bool> = or(BOOLEAN, false);
    /// Whether it is insulated for mains voltage. Without it false.
    mains_insulated: Sourced<bool> = or(BOOLEAN, false);
    /// Largest current that one conductor may carry all the time, as its data sheet gives it.
    current_rating: Option<Sourced<Current>> = may(CURRENT);
    /// Highest conductor temperature.
    conductor_temperature_limit: Option<Sourced<Temperature>> = may(TEMPERATURE);
    /// Line constants of one pair, for signals.
    line: Option<LineConstants> = may(Kind::Table(&LINE)).bears(Bears::OnSignal).as_one_value(), by line;
    /// Everyday names by which people ask for it ("bell wire").
    called: Vec<Sourced<String>> = list(Kind::List(&Kind::Text)).bears(Bears::OnNothing);
    /// Lengths in which it is sold.
    drum_lengths: Vec<Sourced<Length>> = list(Kind::List(&SECTION_LENGTH)).bears(Bears::OnNothing);
}

/// Words that say nothing of the kind of a cable, in English and German.
const AGE: &[&str] = &[
    "old",
    "existing",
    "new",
    "the",
    "a",
    "alt",
    "alte",
    "alter",
    "altes",
    "alten",
    "vorhandene",
    "vorhandener",
    "vorhandenes",
    "neu",
    "neue",
    "neuer",
    "neues",
    "der",
    "die",
    "das",
    "mm",
    "mm²",
    "mm2",
    "qmm",
];

/// An everyday name without what does not tell cables apart: capital letters, spaces and signs, age, the number of its pairs
/// ("2x2x0,8 mm" is 0.8).
fn squeezed(text: &str) -> String {
    let lower = text.to_lowercase().replace(',', ".");
    let words =
        lower.split(|sign: char| !(sign.is_alphanumeric() || sign == '.')).filter(|word| !AGE.contains(word));
    let size = |word: &str| -> String {
        let is_size =
            !word.is_empty() && word.chars().all(|sign| sign.is_ascii_digit() || "x.".contains(sign));
        let last = word.rsplit('x').next().filter(|last| is_size && !last.is_empty());
        last.unwrap_or(word).trim_end_matches("mm").to_string()
    };
    words.map(size).collect()
}

impl Cable {
    /// Whether one of its everyday names is meant: "Bell-Wire", "bellwire", "old bell wire", "J-Y(St)Y 2x2x0,8".
    pub fn is_called(&self, text: &str) -> bool {
        let asked = squeezed(text);
        !asked.is_empty() && self.called.iter().any(|called| squeezed(&called.value) == asked)
    }

    /// Whether one of its everyday names begins so, with the size of the conductor left out.
    pub fn called_begins(&self, text: &str) -> bool {
        let asked = squeezed(text);
        let rest = |called: &str| squeezed(called).strip_prefix(&asked).map(str::to_string);
        let is_size = |rest: &str| rest.starts_with(|sign: char| sign.is_ascii_digit());
        asked.len() > 2
            && self.called.iter().any(|called| rest(&called.value).is_some_and(|rest| is_size(&rest)))
    }
}

/// The tables of IEC 60228 give the highest resistance already.
fn resistance_tolerance(
    record: &Record<'_>,
    provenance: Provenance,
    gauge: &Sourced<Gauge>,
    material: Material,
    is_coated: bool,
) -> Sourced<Ratio> {
    let stated = record.read("resistance_tolerance", provenance);
    match (stated, gauge.value) {
        // The tables of IEC 60228 give the highest resistance already.
        (None, Gauge::CrossSection { area, .. }) if material == Material::Copper && is_in_iec_60228(area) => {
            Sourced::new(Ratio::ZERO, Origin::None, Provenance::Standard)
        }
        (stated, Gauge::CrossSection { class, .. }) => {
            let usual = Ratio::from_fraction(excess_at_the_small_end(class, is_coated));
            record.or_assumed("resistance_tolerance", stated, usual)
        }
        (stated, _) => record.or_assumed("resistance_tolerance", stated, Ratio::from_fraction(0.05)),
    }
}

/// Nominal cross-sections of copper conductors for which IEC 60228:2004 gives a highest resistance, as far as it is built in.
const IEC_60228_MM2: [f64; 9] = [0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0];

/// Whether a nominal cross-section is one of that table.
fn is_in_iec_60228(area: Area) -> bool {
    IEC_60228_MM2.contains(&area.as_square_millimetres())
}

/// How far the highest resistance of IEC 60228 lies above that of so much annealed copper at the small end of its table, 0.5 mm²: 36.0, 36.7,
/// 39.0 and 40.1 ohm/km against 34.48. Taken, as assumed, for a cross-section that the table does not have.
fn excess_at_the_small_end(class: u8, is_coated: bool) -> f64 {
    let ohm_per_km = match (class, is_coated) {
        (5, false) => 39.0,
        (5, true) => 40.1,
        (_, false) => 36.0,
        (_, true) => 36.7,
    };
    ohm_per_km * 0.5 * 58.0 / 1e3 - 1.0
}

// By hand: either constants, or the losses from which they are fitted.
/// Keys of [`LineConstants`].
pub static LINE: TableSpec = {
    static OWN: &[KeySpec] = &[
        KeySpec::must("capacitance", CAPACITANCE_PER_LENGTH, "Capacitance between the conductors."),
        KeySpec::may(
            "inductance",
            INDUCTANCE_PER_LENGTH,
            "Inductance of the loop. Must be there without losses.",
        ),
        KeySpec::may(
            "skin_corner",
            FREQUENCY,
            "Frequency above which the resistance grows with the square root of the frequency. Must be there without losses.",
        ),
        KeySpec::may(
            "loss_tangent",
            Kind::Number(0.0, 0.5),
            "Loss tangent of the insulation. Must be there without losses.",
        ),
        KeySpec::may(
            "losses",
            Kind::List(&Kind::Table(&CABLE_LOSS)),
            "Instead of skin corner and loss tangent: the data sheet's losses of 100 m, three or more, to which they are fitted.",
        ),
    ];
    static ALL: [KeySpec; INNER_KEYS.len() + OWN.len()] = joined(INNER_KEYS, OWN);
    TableSpec { name: Thing::LineConstant, doc: "Line constants of one pair.", keys: &ALL }
};

/// Line constants of one pair, per metre of pair.
#[derive(Debug, Clone, PartialEq)]
pub struct LineConstants {
    /// Capacitance between the conductors.
    pub capacitance: Sourced<CapacitancePerLength>,
    /// What tells the rest.
    pub rest: LineRest,
}

/// What is known of a pair besides its resistance and capacitance.
#[derive(Debug, Clone, PartialEq)]
pub enum LineRest {
    /// Its constants.
    Constants {
        /// Inductance of the loop.
        inductance: Sourced<InductancePerLength>,
        /// Frequency above which the resistance grows with the square root of the frequency.
        skin_corner: Sourced<Frequency>,
        /// Loss tangent of the insulation.
        loss_tangent: Sourced<Ratio>,
    },
    /// A data sheet's table of losses, to which constants are fitted.
    Losses {
        /// Inductance of the loop, if it is known.
        inductance: Option<Sourced<InductancePerLength>>,
        /// The rows of the table.
        rows: Vec<CableLoss>,
    },
}

keys! {
    /// Loss of a matched length of 100 m at one frequency.
    pub struct CableLoss = CABLE_LOSS CableLoss;
    try read(record, provenance);

    /// The frequency.
    frequency: Sourced<Frequency> = must(FREQUENCY);
    /// Loss of 100 m.
    loss_per_100_m as "loss": Sourced<Decibels> = must(LEVEL);
}
