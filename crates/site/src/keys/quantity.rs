//! Numbers with units, as people write them: `14 m`, `0.5 mm`, `176 ohm/km`, `20 °C`.

use latchline_finding::{Language, METRES_PER_FOOT};
use latchline_words::reading::Dimension as Words;
use std::fmt;

/// What a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Dimension {
    /// Length, base unit m.
    Length,
    /// Cross-section of a conductor, base unit mm².
    Area,
    /// American wire gauge; the number itself.
    WireGauge,
    /// Voltage, base unit V.
    Voltage,
    /// Current, base unit A.
    Current,
    /// Power, base unit W.
    Power,
    /// Resistance, base unit ohm.
    Resistance,
    /// Resistance per length, base unit ohm/m.
    ResistancePerLength,
    /// Time, base unit s.
    Duration,
    /// Capacitance, base unit F.
    Capacitance,
    /// Capacitance per length, base unit F/m.
    CapacitancePerLength,
    /// Inductance, base unit H.
    Inductance,
    /// Inductance per length, base unit H/m.
    InductancePerLength,
    /// Frequency, base unit Hz.
    Frequency,
    /// Level difference, base unit dB.
    Level,
    /// Charge of a battery, base unit Ah.
    Charge,
    /// Temperature, base unit °C.
    Temperature,
    /// Ratio, base unit 1; written in per cent.
    Ratio,
}

impl Dimension {
    /// The words for it in messages and documents.
    pub fn words(self) -> Words {
        match self {
            Dimension::Length => Words::Length,
            Dimension::Area => Words::CrossSection,
            Dimension::WireGauge => Words::WireGauge,
            Dimension::Voltage => Words::Voltage,
            Dimension::Current => Words::Current,
            Dimension::Power => Words::Power,
            Dimension::Resistance => Words::Resistance,
            Dimension::ResistancePerLength => Words::ResistancePerLength,
            Dimension::Duration => Words::Time,
            Dimension::Capacitance => Words::Capacitance,
            Dimension::CapacitancePerLength => Words::CapacitancePerLength,
            Dimension::Inductance => Words::Inductance,
            Dimension::InductancePerLength => Words::InductancePerLength,
            Dimension::Frequency => Words::Frequency,
            Dimension::Level => Words::Level,
            Dimension::Charge => Words::BatteryCapacity,
            Dimension::Temperature => Words::Temperature,
            Dimension::Ratio => Words::Percentage,
        }
    }

    /// Every unit symbol that it accepts, in the order they are shown.
    pub fn symbols(self) -> impl Iterator<Item = &'static str> {
        UNITS.iter().filter(move |unit| unit.dimension == self).map(|unit| unit.symbol)
    }
}

/// One unit of the table [`UNITS`].
#[derive(Debug, Clone, Copy)]
pub struct UnitSymbol {
    /// How it is written, with `u` for µ, `ohm` for Ω, `2` for ² and no degree sign.
    pub symbol: &'static str,
    /// What it measures.
    pub dimension: Dimension,
    /// One of it in base units.
    pub factor: f64,
    /// Added before multiplying: only for Fahrenheit.
    pub offset: f64,
}

const fn unit(symbol: &'static str, dimension: Dimension, factor: f64) -> UnitSymbol {
    UnitSymbol { symbol, dimension, factor, offset: 0.0 }
}

/// Every unit that site and catalogue files accept.
pub const UNITS: &[UnitSymbol] = &[
    unit("m", Dimension::Length, 1.0),
    unit("mm", Dimension::Length, 1e-3),
    unit("cm", Dimension::Length, 1e-2),
    unit("km", Dimension::Length, 1e3),
    unit("ft", Dimension::Length, METRES_PER_FOOT),
    unit("in", Dimension::Length, 0.0254),
    unit("mm2", Dimension::Area, 1.0),
    unit("AWG", Dimension::WireGauge, 1.0),
    unit("V", Dimension::Voltage, 1.0),
    unit("mV", Dimension::Voltage, 1e-3),
    unit("A", Dimension::Current, 1.0),
    unit("mA", Dimension::Current, 1e-3),
    unit("uA", Dimension::Current, 1e-6),
    unit("W", Dimension::Power, 1.0),
    unit("mW", Dimension::Power, 1e-3),
    unit("kW", Dimension::Power, 1e3),
    unit("ohm", Dimension::Resistance, 1.0),
    unit("mohm", Dimension::Resistance, 1e-3),
    unit("kohm", Dimension::Resistance, 1e3),
    unit("Mohm", Dimension::Resistance, 1e6),
    unit("ohm/km", Dimension::ResistancePerLength, 1e-3),
    unit("ohm/m", Dimension::ResistancePerLength, 1.0),
    unit("mohm/m", Dimension::ResistancePerLength, 1e-3),
    unit("ohm/100m", Dimension::ResistancePerLength, 1e-2),
    unit("ohm/kft", Dimension::ResistancePerLength, 1e-3 / METRES_PER_FOOT),
    unit("s", Dimension::Duration, 1.0),
    unit("ms", Dimension::Duration, 1e-3),
    unit("min", Dimension::Duration, 60.0),
    unit("h", Dimension::Duration, 3600.0),
    unit("F", Dimension::Capacitance, 1.0),
    unit("mF", Dimension::Capacitance, 1e-3),
    unit("uF", Dimension::Capacitance, 1e-6),
    unit("nF", Dimension::Capacitance, 1e-9),
    unit("pF", Dimension::Capacitance, 1e-12),
    unit("nF/km", Dimension::CapacitancePerLength, 1e-12),
    unit("uF/km", Dimension::CapacitancePerLength, 1e-9),
    unit("pF/m", Dimension::CapacitancePerLength, 1e-12),
    unit("pF/ft", Dimension::CapacitancePerLength, 1e-12 / METRES_PER_FOOT),
    unit("H", Dimension::Inductance, 1.0),
    unit("mH", Dimension::Inductance, 1e-3),
    unit("uH", Dimension::Inductance, 1e-6),
    unit("mH/km", Dimension::InductancePerLength, 1e-6),
    unit("uH/km", Dimension::InductancePerLength, 1e-9),
    unit("uH/m", Dimension::InductancePerLength, 1e-6),
    unit("nH/m", Dimension::InductancePerLength, 1e-9),
    unit("Hz", Dimension::Frequency, 1.0),
    unit("kHz", Dimension::Frequency, 1e3),
    unit("MHz", Dimension::Frequency, 1e6),
    unit("dB", Dimension::Level, 1.0),
    unit("Ah", Dimension::Charge, 1.0),
    unit("mAh", Dimension::Charge, 1e-3),
    unit("C", Dimension::Temperature, 1.0),
    UnitSymbol { symbol: "F", dimension: Dimension::Temperature, factor: 5.0 / 9.0, offset: -32.0 },
    unit("%", Dimension::Ratio, 0.01),
];

/// The accepted range of a quantity, both ends included.
#[derive(Debug, Clone, Copy)]
pub struct Bounds {
    /// What it measures.
    pub dimension: Dimension,
    /// Lowest accepted value in the base unit.
    pub low: f64,
    /// Highest accepted value in the base unit.
    pub high: f64,
    /// The lowest value as a person writes it.
    pub low_text: &'static str,
    /// The highest value as a person writes it.
    pub high_text: &'static str,
    /// A usual value, as a person writes it.
    pub example: &'static str,
}

/// Why a text is not an accepted quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum QuantityError<'t> {
    /// It does not begin with a finite number.
    NotANumber,
    /// Signs that part the thousands of the number (`1 500 mm`).
    GroupedDigits,
    /// A number without a unit.
    NoUnit,
    /// A comma where the decimal point belongs.
    DecimalComma,
    /// This is no unit that the files know.
    UnknownUnit(&'t str),
    /// The unit measures something else.
    WrongDimension(Dimension),
    /// Below or above the accepted range.
    OutOfRange,
}

impl fmt::Display for QuantityError<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            QuantityError::NotANumber => f.write_str("not a number with a unit"),
            QuantityError::GroupedDigits => f.write_str("digits in groups: write them together"),
            QuantityError::NoUnit => f.write_str("the unit is missing"),
            QuantityError::DecimalComma => f.write_str("a decimal comma: write a point"),
            QuantityError::UnknownUnit(unit) => write!(f, "unknown unit '{unit}'"),
            QuantityError::WrongDimension(found) => {
                write!(f, "this is a {}", found.words().say(Language::English))
            }
            QuantityError::OutOfRange => f.write_str("out of the accepted range"),
        }
    }
}

impl std::error::Error for QuantityError<'_> {}

/// Length of the number at the start of `text`: sign, digits, point, digits, exponent.
fn number_length(text: &str) -> usize {
    let bytes = text.as_bytes();
    let digits_from = |mut at: usize| {
        while bytes.get(at).is_some_and(u8::is_ascii_digit) {
            at += 1;
        }
        at
    };
    let start = usize::from(matches!(bytes.first(), Some(b'+' | b'-')));
    let mut end = digits_from(start);
    if bytes.get(end) == Some(&b'.') && bytes.get(end + 1).is_some_and(u8::is_ascii_digit) {
        end = digits_from(end + 1);
    }
    if end == start {
        return 0;
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let exponent_end = digits_from(end + 1 + sign);
        if exponent_end > end + 1 + sign {
            end = exponent_end;
        }
    }
    end
}

/// The unit symbol in the spelling of [`UNITS`].
fn plain_symbol(written: &str) -> String {
    let mut plain = String::with_capacity(written.len());
    for character in written.chars() {
        match character {
            '\u{b5}' | '\u{3bc}' => plain.push('u'),
            '\u{3a9}' | '\u{2126}' => plain.push_str("ohm"),
            '²' => plain.push('2'),
            '°' => {}
            character if character.is_whitespace() => {}
            character => plain.push(character),
        }
    }
    match plain.strip_prefix("Ohm").or_else(|| plain.strip_prefix("ohms")) {
        Some(rest) => format!("ohm{rest}"),
        None => plain,
    }
}

/// Splits `text` into its number and its unit, both unchecked against any range.
///
/// # Errors
/// If there is no finite number, a decimal comma, or an unknown unit. A missing unit is `None`.
pub fn read_number_and_unit(text: &str) -> Result<(f64, Option<String>), QuantityError<'_>> {
    let text = text.trim();
    let length = number_length(text);
    if length == 0 {
        return Err(QuantityError::NotANumber);
    }
    let rest = text[length..].trim_start();
    if rest.starts_with(',') && rest[1..].starts_with(|character: char| character.is_ascii_digit()) {
        return Err(QuantityError::DecimalComma);
    }
    let number: f64 = text[..length].parse().map_err(|_| QuantityError::NotANumber)?;
    if !number.is_finite() {
        return Err(QuantityError::NotANumber);
    }
    if rest.is_empty() {
        return Ok((number, None));
    }
    if without_groups(text).is_some() {
        return Err(QuantityError::GroupedDigits);
    }
    let symbol = plain_symbol(rest);
    if !UNITS.iter().any(|unit| unit.symbol == symbol) {
        // "12-15 m", "2 x 15 m", "12m50": more than one number is no unit.
        let is_number = |part: &str| part.starts_with(|sign: char| sign.is_ascii_digit());
        let per_length = symbol.contains('/');
        let is_second = !per_length && rest.char_indices().any(|(at, _)| is_number(&rest[at..]));
        return Err(if is_second { QuantityError::NotANumber } else { QuantityError::UnknownUnit(rest) });
    }
    Ok((number, Some(symbol)))
}

/// A text whose number has its thousands parted by spaces or apostrophes, written together: `1 500 mm` as `1500 mm`.
pub fn without_groups(text: &str) -> Option<String> {
    let text = text.trim();
    let mut written = String::with_capacity(text.len());
    let mut rest = text;
    let digits = |text: &str| text.chars().take_while(char::is_ascii_digit).count();
    let mut groups = 0;
    while let length @ 1..=3 = digits(rest) {
        if groups > 0 && length != 3 {
            return None;
        }
        written.push_str(&rest[..length]);
        rest = &rest[length..];
        let mut signs = rest.chars();
        let parts = signs.next().is_some_and(|sign| sign.is_whitespace() || "'\u{2019}".contains(sign));
        if !parts || digits(signs.as_str()) == 0 {
            break;
        }
        groups += 1;
        rest = signs.as_str();
    }
    // A comma after groups can only be a decimal one.
    let decimal = rest.strip_prefix(',').filter(|after| digits(after) > 0);
    let rest = decimal.map_or_else(|| rest.to_string(), |after| format!(".{after}"));
    (groups > 0 && !rest.starts_with(|sign: char| sign.is_ascii_digit())).then(|| written + &rest)
}

/// What somebody means by a unit that is spelled out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpelledUnit {
    /// The unit to write.
    pub symbol: &'static str,
    /// For a length that is not metric: its own symbol, and metres in one of it.
    pub in_metres: Option<(&'static str, f64)>,
}

/// Metres in an inch, a foot and a yard by the international yard and pound agreement of 1959 (0.9144 m to the yard, exact); the same
/// figures stand in NIST Special Publication 811, appendix B.
const INCH_FOOT_YARD_M: [f64; 3] = [0.0254, METRES_PER_FOOT, 0.9144];

/// Units as people spell them, in English and German, in small letters.
const SPELLED: &[(&str, &[&str])] = &[
    ("m", &["meter", "meters", "metre", "metres", "mtr", "mtrs", "mts", "metern", "lfm", "lfdm"]),
    ("cm", &["centimetre", "centimetres", "centimeter", "centimeters", "zentimeter"]),
    ("mm", &["millimetre", "millimetres", "millimeter", "millimeters"]),
    ("km", &["kilometre", "kilometres", "kilometer", "kilometers"]),
    ("in", &["inch", "inches", "\"", "\u{2033}", "zoll"]),
    ("ft", &["foot", "feet", "'", "\u{2032}", "\u{2019}", "fuß", "fuss"]),
    ("mm2", &["sqmm", "qmm", "mm^2", "mmq", "squaremm", "quadratmillimeter"]),
    ("V", &["volt", "volts", "vdc"]),
    ("A", &["amp", "amps", "ampere", "amperes"]),
    ("mA", &["milliamp", "milliamps", "milliampere"]),
    ("W", &["watt", "watts"]),
    ("ohm", &["ohms", "r"]),
    ("s", &["sec", "secs", "second", "seconds", "sekunde", "sekunden", "sek"]),
    ("min", &["mins", "minute", "minutes", "minuten"]),
    ("h", &["hr", "hrs", "hour", "hours", "stunde", "stunden", "std"]),
    ("Ah", &["amphour", "amphours", "amperestunden"]),
    ("C", &["celsius", "degrees", "degree", "deg", "degc", "grad"]),
    ("F", &["fahrenheit", "degf"]),
    ("%", &["percent", "percentage", "prozent", "pct"]),
];

/// The unit that is meant by one that the files do not know.
pub fn spelled_unit(written: &str) -> Option<SpelledUnit> {
    let lower: String = written.to_lowercase().split([' ', '.']).collect();
    let [inch, foot, yard] = INCH_FOOT_YARD_M;
    if ["yd", "yds", "yard", "yards"].contains(&&*lower) {
        return Some(SpelledUnit { symbol: "m", in_metres: Some(("yd", yard)) });
    }
    let (symbol, _) = SPELLED.iter().find(|(_, ways)| ways.contains(&&*lower))?;
    let in_metres = match *symbol {
        "in" => Some(("in", inch)),
        "ft" => Some(("ft", foot)),
        _ => None,
    };
    Some(SpelledUnit { symbol, in_metres })
}

/// The number at the start of a text; `None` if it does not begin with one.
pub fn leading_number(text: &str) -> Option<f64> {
    let text = text.trim();
    text[..number_length(text)].parse().ok().filter(|number: &f64| number.is_finite())
}

/// The value of `text` in the base unit of `dimension`, unchecked against any range.
fn read_dimension(text: &str, dimension: Dimension) -> Result<f64, QuantityError<'_>> {
    let (number, symbol) = read_number_and_unit(text)?;
    let symbol = symbol.ok_or(QuantityError::NoUnit)?;
    match UNITS.iter().find(|unit| unit.symbol == symbol && unit.dimension == dimension) {
        Some(unit) => Ok((number + unit.offset) * unit.factor),
        None => Err(UNITS
            .iter()
            .find(|unit| unit.symbol == symbol)
            .map_or(QuantityError::NoUnit, |unit| QuantityError::WrongDimension(unit.dimension))),
    }
}

/// The value of `text` in the base unit of its dimension.
///
/// # Errors
/// If it is not a number with a fitting unit within `bounds`.
pub fn read_quantity<'t>(text: &'t str, bounds: &Bounds) -> Result<f64, QuantityError<'t>> {
    let value = read_dimension(text, bounds.dimension)?;
    // A value typed at the limit in another unit may miss it by the last bit.
    let slack = 4.0 * f64::EPSILON;
    if value < bounds.low - bounds.low.abs() * slack || value > bounds.high + bounds.high.abs() * slack {
        return Err(QuantityError::OutOfRange);
    }
    Ok(value)
}

/// What a number with a comma in it may have meant, written with a decimal point: a single comma
/// before three digits is a decimal or a thousand.
pub fn readings_of_comma(written: &str) -> Vec<String> {
    let end = written.find(|sign: char| !sign.is_ascii_digit() && !",.+-".contains(sign));
    let (number, unit) = written.split_at(end.unwrap_or(written.len()));
    let without = |sign: char| number.replace(sign, "");
    let numbers = match (number.rfind(','), number.rfind('.'), number.matches(',').count()) {
        (Some(comma), Some(point), _) if comma > point => vec![without('.').replacen(',', ".", 1)],
        (Some(_), Some(_), _) => vec![without(',')],
        (Some(comma), None, 1) => {
            let decimal = number.replacen(',', ".", 1);
            let whole = number[..comma].trim_start_matches(['+', '-']);
            let thousand = number.len() - comma == 4 && (1..=3).contains(&whole.len()) && whole != "0";
            if thousand { vec![without(','), decimal] } else { vec![decimal] }
        }
        _ => vec![without(',')],
    };
    numbers.into_iter().map(|number| format!("{number}{unit}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn length(text: &str) -> Result<f64, QuantityError<'_>> {
        read_dimension(text, Dimension::Length)
    }

    /// Conversion factors: SI prefixes; inch and foot by the international yard (25.4 mm and
    /// 304.8 mm, exact).
    #[test]
    fn units_convert_by_their_definitions() {
        let cases = [
            ("14 m", Dimension::Length, 14.0),
            ("14m", Dimension::Length, 14.0),
            (" 250mm ", Dimension::Length, 0.25),
            ("10 ft", Dimension::Length, 3.048),
            ("10 in", Dimension::Length, 0.254),
            ("85 mA", Dimension::Current, 0.085),
            ("4.1 Ω", Dimension::Resistance, 4.1),
            ("4.1 \u{2126}", Dimension::Resistance, 4.1),
            ("20 MΩ", Dimension::Resistance, 2e7),
            ("20mohm", Dimension::Resistance, 0.02),
            ("9.38 ohm/100m", Dimension::ResistancePerLength, 0.0938),
            ("9.38 ohm / 100 m", Dimension::ResistancePerLength, 0.0938),
            ("28.6 ohm/kft", Dimension::ResistancePerLength, 28.6 / 304.8),
            ("176 ohm/km", Dimension::ResistancePerLength, 0.176),
            ("47 µF", Dimension::Capacitance, 47e-6),
            ("47 μF", Dimension::Capacitance, 47e-6),
            ("59.1 nF/km", Dimension::CapacitancePerLength, 59.1e-12),
            ("18 pF/ft", Dimension::CapacitancePerLength, 59.055_118_110_236_22e-12),
            ("0.6 mH/km", Dimension::InductancePerLength, 0.6e-6),
            ("68 °F", Dimension::Temperature, 20.0),
            ("-40 F", Dimension::Temperature, -40.0),
            ("20 °C", Dimension::Temperature, 20.0),
            ("5 %", Dimension::Ratio, 0.05),
            ("1.5 mm²", Dimension::Area, 1.5),
            ("2 min", Dimension::Duration, 120.0),
            ("1e3 Hz", Dimension::Frequency, 1000.0),
        ];
        for (text, dimension, expected) in cases {
            let value = read_dimension(text, dimension).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert!((value - expected).abs() <= expected.abs() * 1e-14, "{text}: {value}");
        }
    }

    #[test]
    fn mistakes_are_told_apart() {
        assert_eq!(length("14"), Err(QuantityError::NoUnit));
        assert_eq!(length("1,5 m"), Err(QuantityError::DecimalComma));
        assert_eq!(readings_of_comma("1,5 m"), ["1.5 m"]);
        assert_eq!(readings_of_comma("1,000 m"), ["1000 m", "1.000 m"]);
        assert_eq!(readings_of_comma("0,125 mm"), ["0.125 mm"]);
        assert_eq!(readings_of_comma("1.000,5 m"), ["1000.5 m"]);
        assert_eq!(readings_of_comma("1,000.5 m"), ["1000.5 m"]);
        assert_eq!(readings_of_comma("1,000,000 ohm"), ["1000000 ohm"]);
        for text in ["1 500 mm", "1\u{2009}500 mm", "1\u{202f}500 mm", "1'500 mm", "1\u{2019}500 mm"] {
            assert_eq!(length(text), Err(QuantityError::GroupedDigits), "{text}");
            assert_eq!(without_groups(text).as_deref(), Some("1500 mm"), "{text}");
        }
        assert_eq!(without_groups("12 345 678,5 mm").as_deref(), Some("12345678.5 mm"));
        for text in ["14 m", "1 50 mm", "1 5000 mm", "1500 mm", "3' 6\"", "1 500500 mm"] {
            assert_eq!(without_groups(text), None, "{text}");
        }
        for text in ["12-15 m", "2 x 15 m", "12m50", "3' 6\""] {
            assert_eq!(length(text), Err(QuantityError::NotANumber), "{text}");
        }
        assert_eq!(length("14 V"), Err(QuantityError::WrongDimension(Dimension::Voltage)));
        assert_eq!(length("14 furlong"), Err(QuantityError::UnknownUnit("furlong")));
        for text in ["", "m", "NaN m", "inf m", "-", ".", "1e999 m", "--3 m", "−3 m"] {
            assert_eq!(length(text), Err(QuantityError::NotANumber), "{text:?}");
        }
        assert_eq!(length("3e m"), Err(QuantityError::UnknownUnit("e m")));
        let bounds = Bounds {
            dimension: Dimension::Length,
            low: 0.01,
            high: 20e3,
            low_text: "0.01 m",
            high_text: "20 km",
            example: "14 m",
        };
        for text in ["0 m", "-3 m", "21 km"] {
            assert_eq!(read_quantity(text, &bounds), Err(QuantityError::OutOfRange), "{text}");
        }
        for text in ["20 km", "20000 m", "1 cm", "0.01 m", "10 mm"] {
            assert!(read_quantity(text, &bounds).is_ok(), "the limits themselves are allowed: {text}");
        }
    }

    /// 30 ft are 9.144 m, 42 yd 38.4048 m, 3 in 0.0762 m (NIST Special Publication 811, appendix B: exact factors, from memory).
    #[test]
    fn units_that_are_spelled_out_are_recognised() {
        for (written, symbol) in
            [("meters", "m"), ("Mtr.", "m"), ("metre", "m"), ("Stunden", "h"), ("amps", "A")]
        {
            assert_eq!(spelled_unit(written), Some(SpelledUnit { symbol, in_metres: None }), "{written}");
        }
        for (number, written, metres) in
            [(30.0, "feet", 9.144), (42.0, "yd", 38.4048), (3.0, "inches", 0.0762)]
        {
            let factor = spelled_unit(written).and_then(|unit| unit.in_metres).expect(written).1;
            assert!((number * factor - metres).abs() < 1e-12, "{written}");
        }
        assert_eq!(spelled_unit("furlong"), None);
        for (symbol, _) in SPELLED {
            assert!(UNITS.iter().any(|unit| unit.symbol == *symbol), "{symbol}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(256))]
        #[test]
        fn any_text_is_read_or_refused(text in "\\PC{0,24}") {
            if let Ok(value) = length(&text) {
                prop_assert!(value.is_finite());
            }
        }

        #[test]
        fn what_is_written_is_read(number in 1e-6_f64..1e6) {
            for unit in UNITS {
                let text = format!("{number} {}", unit.symbol);
                let value = read_dimension(&text, unit.dimension).unwrap();
                prop_assert_eq!(value, (number + unit.offset) * unit.factor);
            }
        }
    }
}
