//! Numbers for people: decimals that fit the unit, and roundings that never flatter.

use latchline_finding::{Figure, Language, Locale, Money, Rounded, Rounding, Unit, Units};

/// A number with a fixed count of decimals; a result of zero has no sign.
pub fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(digits) if digits.bytes().all(|byte| byte == b'0' || byte == b'.') => digits.to_string(),
        _ => text,
    }
}

/// `fixed` without trailing zeros after the point.
pub fn trimmed(value: f64, decimals: usize) -> String {
    without_zeros(&fixed(value, decimals)).to_string()
}

fn without_zeros(number: &str) -> &str {
    if number.contains('.') { number.trim_end_matches('0').trim_end_matches('.') } else { number }
}

/// Rounded towards minus infinity, for voltages and margins: a shown figure is never better than
/// the computed one. A negative number never shows as zero.
pub fn rounded_down(value: f64, decimals: usize) -> String {
    let rounded = down(value, decimals);
    let is_hidden = value < 0.0 && rounded == 0.0;
    fixed(if is_hidden { -1.0 / power_of_ten(decimals) } else { rounded }, decimals)
}

/// A number to the decimal below, for figures that are reckoned with as they are shown.
pub fn down(value: f64, decimals: usize) -> f64 {
    whole(value * power_of_ten(decimals), f64::floor) / power_of_ten(decimals)
}

/// A number to the decimal above.
pub fn up(value: f64, decimals: usize) -> f64 {
    whole(value * power_of_ten(decimals), f64::ceil) / power_of_ten(decimals)
}

/// A whole number to one side; one that is whole but for its last binary digit stays what it is.
fn whole(scaled: f64, to_side: fn(f64) -> f64) -> f64 {
    let nearest = scaled.round();
    if (scaled - nearest).abs() < 1e-6 { nearest } else { to_side(scaled) }
}

/// Rounded towards plus infinity, for currents and loads.
pub fn rounded_up(value: f64, decimals: usize) -> String {
    fixed(up(value, decimals), decimals)
}

/// The one rounding of each quantity that is calculated, for every output; the number alone, in the reader's language. Where room is short a
/// drawing cuts digits off the end of the same rounding.
///
/// A voltage, or a margin of one: down to the hundredth.
pub fn volts(voltage_v: f64, language: Language) -> String {
    decimals(rounded_down(voltage_v, 2), language)
}

/// A voltage or margin where room is short: down to the tenth, [`volts`] without its last digit.
pub fn volts_briefly(voltage_v: f64, language: Language) -> String {
    decimals(rounded_down(voltage_v, 1), language)
}

/// What falls short of a limit, in volts: up to the hundredth.
pub fn volts_short(short_v: f64, language: Language) -> String {
    decimals(rounded_up(short_v, 2), language)
}

/// A current that is drawn: up to the milliampere, from 10 A on to the hundredth.
pub fn amperes(current_a: f64, language: Language) -> String {
    decimals(rounded_up(current_a, decimals_of_amperes(current_a)), language)
}

/// A limit beside such currents, with as many digits.
pub fn limit_amperes(limit_a: f64, language: Language) -> String {
    decimals(fixed(limit_a, decimals_of_amperes(limit_a)), language)
}

fn decimals_of_amperes(current_a: f64) -> usize {
    if current_a.abs() < 10.0 { 3 } else { 2 }
}

/// A current through a short, of which more is better: down to the hundredth.
pub fn short_circuit_amperes(current_a: f64, language: Language) -> String {
    decimals(rounded_down(current_a, 2), language)
}

/// A power that is drawn: up to the tenth.
pub fn watts(power_w: f64, language: Language) -> String {
    decimals(rounded_up(power_w, 1), language)
}

/// A loss or a ripple: up to the tenth.
pub fn decibels(loss_db: f64, language: Language) -> String {
    decimals(rounded_up(loss_db, 1), language)
}

/// A loop resistance that is calculated: to the nearest hundredth.
pub fn ohms(resistance_ohm: f64, language: Language) -> String {
    decimals(fixed(resistance_ohm, 2), language)
}

/// A length of cable in metres: to the nearest tenth.
pub fn metres(length_m: f64, language: Language) -> String {
    decimals(fixed(length_m, 1), language)
}

/// An amount of money: two decimals, always, a half of a hundredth upwards. Whatever shows money shows it so.
pub fn money(amount: Money, language: Language) -> String {
    decimals(amount.to_string(), language)
}

/// What a change costs or saves, without sign.
pub fn cost(cost: Money, language: Language) -> String {
    let rounded = cost.rounded();
    money(if rounded < Money::ZERO { Money::ZERO - rounded } else { rounded }, language)
}

/// Hours that a battery lasts: down to the tenth.
pub fn battery_hours(hours: f64, language: Language) -> String {
    decimals(rounded_down(hours, 1), language)
}

/// How long a start takes, to the tenth of a second above: the one rounding of it, for figures of findings.
pub fn start_s(time_s: f64) -> f64 {
    up(time_s, 1)
}

/// The same as it stands in tables, drawings and sentences, without its unit.
pub fn start_time(time_s: f64, language: Language) -> String {
    decimals(trimmed(start_s(time_s), 1), language)
}

fn power_of_ten(decimals: usize) -> f64 {
    (0..decimals).fold(1.0, |product, _| product * 10.0)
}

/// A figure as it stands in a sentence: "36 V", "4.7 %", "3". Currents and loads are rounded up, here
/// as in every table.
pub fn sentence(figure: Figure, locale: impl Into<Locale>) -> String {
    shown(figure, Rounding::Nearest, locale)
}

/// A figure as it stands in a sentence, rounded to this side.
pub fn shown(figure: Figure, rounding: Rounding, locale: impl Into<Locale>) -> String {
    let Locale { language, units } = locale.into();
    if !figure.value.is_finite() {
        return no_number(figure, language);
    }
    let (value, symbol, decimals) = scaled(figure, units);
    let number = match (rounding, figure.unit) {
        (Rounding::Down, _) => rounded_down(value, decimals),
        (Rounding::Up, _) | (Rounding::Nearest, Unit::Ampere | Unit::Watt) => rounded_up(value, decimals),
        (Rounding::Nearest, _) => fixed(value, decimals),
    };
    join(without_zeros(&number), symbol, language)
}

/// A figure with its own side, as it stands in a sentence: a voltage with the digits that it has in every table and answer.
pub fn rounded(value: Rounded, language: Language) -> String {
    let Rounded { figure, rounding } = value;
    match (figure.unit, rounding) {
        (Unit::Volt, Rounding::Down) if figure.value.is_finite() => {
            join(&rounded_down(figure.value, 2), "V", language)
        }
        (Unit::Volt, Rounding::Up) if figure.value.is_finite() => {
            join(&rounded_up(figure.value, 2), "V", language)
        }
        _ => shown(figure, rounding, language),
    }
}

/// An input of a formula as a calculation shows it, rounded to this side: a power with a thousandth, so that who works the formula out
/// gets the result that stands beside it.
pub fn input(figure: Figure, rounding: Rounding, locale: impl Into<Locale>) -> String {
    let locale = locale.into();
    if figure.unit != Unit::Watt || !figure.value.is_finite() {
        return shown(figure, rounding, locale);
    }
    let number = match rounding {
        Rounding::Down => rounded_down(figure.value, 3),
        Rounding::Up | Rounding::Nearest => rounded_up(figure.value, 3),
    };
    join(without_zeros(&number), "W", locale.language)
}

/// A figure and its limit as they stand in one sentence: rounded away from the limit, with as many
/// decimals as it takes to tell them apart, so that "36.00 V, needs 36 V" is never written of a
/// failure.
pub fn pair(value: Figure, limit: Figure, locale: impl Into<Locale>) -> (String, String) {
    let locale = locale.into();
    let Locale { language, units } = locale;
    if !value.value.is_finite()
        || !limit.value.is_finite()
        || value.unit != limit.unit
        || value.value == limit.value
    {
        return (sentence(value, locale), sentence(limit, locale));
    }
    let (shown, symbol, mut decimals) = scaled(value, units);
    let (shown_limit, limit_symbol, limit_decimals) = scaled(limit, units);
    let mut shown = shown;
    let mut symbols = (symbol, limit_symbol);
    if symbols.0 != symbols.1 {
        // Different prefixes ("900 mohm", "1.2 kohm"): show both in the limit's own scale.
        let factor = if limit.value == 0.0 { 1.0 } else { shown_limit / limit.value };
        shown = value.value * factor;
        symbols.0 = symbols.1;
        decimals = limit_decimals;
    }
    let away = |decimals| match shown < shown_limit {
        true => rounded_down(shown, decimals),
        false => rounded_up(shown, decimals),
    };
    // Rounded away from the limit it is told apart with fewer decimals than rounded to the nearest.
    while decimals < 9 && away(decimals) == fixed(shown_limit, decimals) {
        decimals += 1;
    }
    let number = away(decimals);
    (
        join(without_zeros(&number), symbols.0, language),
        join(&trimmed(shown_limit, decimals), symbols.1, language),
    )
}

/// A number written with a decimal point, with the decimal sign of the language.
pub fn decimals(number: String, language: Language) -> String {
    Locale { language, units: Units::Metric }.decimals(number)
}

fn no_number(figure: Figure, language: Language) -> String {
    let is_voltage = matches!(figure.unit, Unit::Volt | Unit::Ampere | Unit::Watt);
    String::from(match (language, is_voltage) {
        (Language::English, true) => "no voltage that holds",
        (Language::English, false) => "no figure",
        (Language::German, true) => "keine haltende Spannung",
        (Language::German, false) => "keinen Wert",
    })
}

fn join(number: &str, symbol: &'static str, language: Language) -> String {
    let number = decimals(String::from(number), language);
    let symbol = match symbol {
        "ohm" | "mohm" | "kohm" | "Mohm" => Locale { language, units: Units::Metric }.ohm(symbol),
        symbol => symbol,
    };
    if symbol.is_empty() { number } else { format!("{number} {symbol}") }
}

/// Number, symbol and usual decimals of a figure in a fitting multiple of its unit.
fn scaled(figure: Figure, units: Units) -> (f64, &'static str, usize) {
    let Figure { value, unit } = figure;
    let size = value.abs();
    match unit {
        Unit::Metre | Unit::Celsius if units == Units::Us => {
            let (value, _, symbol) = Locale { language: Language::English, units }.scaled(figure);
            (value, symbol, if unit == Unit::Metre { 1 } else { 0 })
        }
        Unit::Volt => (value, "V", 2),
        Unit::Ampere if size > 0.0 && size < 0.1 => (value * 1e3, "mA", 1),
        Unit::Ampere => (value, "A", decimals_of_amperes(value)),
        Unit::Watt => (value, "W", if size < 1.0 { 3 } else { 1 }),
        Unit::Ohm if size >= 1e6 => (value / 1e6, "Mohm", 2),
        Unit::Ohm if size >= 1e3 => (value / 1e3, "kohm", 2),
        Unit::Ohm if size > 0.0 && size < 0.1 => (value * 1e3, "mohm", 1),
        Unit::Ohm => (value, "ohm", 2),
        Unit::Metre => (value, "m", 1),
        Unit::Second if size > 0.0 && size < 1.0 => (value * 1e3, "ms", 1),
        Unit::Second => (value, "s", 2),
        Unit::Hour => (value, "h", 1),
        Unit::Farad if size >= 1e-3 => (value * 1e3, "mF", 2),
        Unit::Farad if size >= 1e-6 => (value * 1e6, "µF", 2),
        Unit::Farad if size >= 1e-9 => (value * 1e9, "nF", 2),
        Unit::Farad => (value * 1e12, "pF", 1),
        Unit::AmpereHour => (value, "Ah", 1),
        Unit::Hertz if size >= 1e6 => (value / 1e6, "MHz", 3),
        Unit::Hertz if size >= 1e3 => (value / 1e3, "kHz", 2),
        Unit::Hertz => (value, "Hz", 1),
        Unit::Decibel => (value, "dB", 1),
        Unit::Celsius => (value, "°C", 1),
        Unit::Percent => (value * 100.0, "%", 1),
        Unit::Ratio => (value, "", 3),
        Unit::Count => (value, "", 0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sentence(figure: Figure) -> String {
        super::sentence(figure, Language::English)
    }

    fn shown(figure: Figure, rounding: Rounding) -> String {
        super::shown(figure, rounding, Language::English)
    }

    fn pair(value: Figure, limit: Figure) -> (String, String) {
        super::pair(value, limit, Language::English)
    }

    /// The international foot has 0.3048 m exactly; 40 °C are 104 °F.
    #[test]
    fn american_units_in_sentences() {
        let us = Locale { language: Language::English, units: Units::Us };
        let said = |value, unit| super::sentence(Figure::new(value, unit), us);
        assert_eq!(said(30.48, Unit::Metre), "100 ft");
        assert_eq!(said(40.0, Unit::Celsius), "104 °F");
        let pair = super::pair(Figure::new(10.0, Unit::Metre), Figure::new(9.144, Unit::Metre), us);
        assert_eq!(pair, (String::from("32.9 ft"), String::from("30 ft")));
    }

    #[test]
    fn german_figures_have_a_comma_and_the_sign_of_the_ohm() {
        let german = |value, unit| super::sentence(Figure::new(value, unit), Language::German);
        assert_eq!(german(8.731, Unit::Volt), "8,73 V");
        assert_eq!(german(2600.0, Unit::Ohm), "2,6 kΩ");
        assert_eq!(german(f64::NAN, Unit::Volt), "keine haltende Spannung");
    }

    #[test]
    fn roundings_never_flatter() {
        assert_eq!(rounded_down(37.629, 2), "37.62");
        assert_eq!(rounded_down(37.62, 2), "37.62");
        assert_eq!(rounded_down(-0.0004, 2), "-0.01");
        assert_eq!(rounded_down(0.0, 2), "0.00");
        assert_eq!(rounded_up(0.30001, 3), "0.301");
        assert_eq!(rounded_up(0.3, 3), "0.300");
        assert_eq!(fixed(-0.0, 2), "0.00");
    }

    #[test]
    fn a_figure_and_its_limit_never_look_equal_unless_they_are() {
        let volts = |value| Figure::new(value, Unit::Volt);
        assert_eq!(pair(volts(31.1), volts(36.0)), ("31.1 V".into(), "36 V".into()));
        assert_eq!(pair(volts(31.1049), volts(36.0)).0, "31.1 V", "down, away from the limit");
        assert_eq!(pair(volts(53.921), volts(30.0)).0, "53.93 V", "up, away from the limit");
        assert_eq!(pair(volts(35.9996), volts(36.0)), ("35.99 V".into(), "36 V".into()));
        assert_eq!(pair(volts(0.99995), volts(1.0)), ("0.99 V".into(), "1 V".into()));
        assert_eq!(pair(volts(36.0), volts(36.0)), ("36 V".into(), "36 V".into()));
        assert_eq!(pair(volts(f64::NEG_INFINITY), volts(36.0)).0, "no voltage that holds");
        let ohms = |value| Figure::new(value, Unit::Ohm);
        assert_eq!(pair(ohms(900.0), ohms(1200.0)), ("0.9 kohm".into(), "1.2 kohm".into()));
    }

    #[test]
    fn figures_are_shown_in_a_fitting_multiple() {
        assert_eq!(sentence(Figure::new(0.047, Unit::Percent)), "4.7 %");
        assert_eq!(sentence(Figure::new(1.1e-9, Unit::Farad)), "1.1 nF");
        assert_eq!(sentence(Figure::new(0.012, Unit::Ampere)), "12 mA");
        assert_eq!(sentence(Figure::new(20e6, Unit::Ohm)), "20 Mohm");
        assert_eq!(sentence(Figure::count(7)), "7");
    }

    #[test]
    fn currents_and_loads_are_rounded_up_and_others_to_the_side_that_is_asked_for() {
        assert_eq!(sentence(Figure::new(54.41, Unit::Watt)), "54.5 W");
        assert_eq!(sentence(Figure::new(2.6692, Unit::Ampere)), "2.67 A");
        let volts = Figure::new(22.831, Unit::Volt);
        assert_eq!(shown(volts, Rounding::Up), "22.84 V");
        assert_eq!(shown(volts, Rounding::Down), "22.83 V");
        assert_eq!(shown(Figure::new(4.19, Unit::Hour), Rounding::Down), "4.1 h");
    }
}
