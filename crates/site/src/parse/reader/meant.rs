//! What was meant by a text that cannot be what it says.

use crate::keys::Kind;

/// What a text in quotes becomes where no text is wanted.
pub(super) enum Unquoted {
    /// To be written like this.
    Value(String),
    /// It looks like a date and is none.
    NoSuchDay,
}

/// What was meant by a text where a number, a date or true and false stand without quotes; `None` where that is not sure.
pub(super) fn unquoted(kind: &Kind, key: &str, text: &str) -> Option<Unquoted> {
    let text = text.trim();
    match kind {
        Kind::Integer(..) | Kind::Number(..) => {
            let end = text.find(|sign: char| !sign.is_ascii_digit() && sign != '.').unwrap_or(text.len());
            let (number, unit) = (&text[..end], text[end..].trim());
            let is_own = unit.is_empty()
                || (key.contains("hour") && matches!(unit, "h" | "hour" | "hours" | "hrs"))
                || (key.contains("minute") && matches!(unit, "min" | "minute" | "minutes"));
            let is_number = match kind {
                Kind::Integer(..) => number.parse::<u32>().is_ok(),
                _ => number.parse::<f64>().is_ok(),
            };
            (is_own && is_number).then(|| Unquoted::Value(number.to_string()))
        }
        Kind::Boolean | Kind::BooleanOr(_) => match text.to_lowercase().as_str() {
            "true" | "yes" => Some(Unquoted::Value(String::from("true"))),
            "false" | "no" => Some(Unquoted::Value(String::from("false"))),
            _ => None,
        },
        Kind::Date => {
            let parts: Vec<&str> = text.split('-').collect();
            let [year, month, day] = parts[..] else { return None };
            let is_shaped = [(year, 4), (month, 2), (day, 2)].iter().all(|(part, length)| {
                part.len() == *length && part.chars().all(|sign| sign.is_ascii_digit())
            });
            let is_date = text.parse::<toml::value::Datetime>().is_ok();
            match (is_shaped, is_date) {
                (true, true) => Some(Unquoted::Value(text.to_string())),
                (true, false) => Some(Unquoted::NoSuchDay),
                _ => None,
            }
        }
        _ => None,
    }
}

/// The word of these files for one that says the same.
pub(super) fn same_word(text: &str) -> Option<&'static str> {
    match text.trim().to_lowercase().as_str() {
        "underground" | "in ground" | "in the ground" | "below ground" => Some("buried"),
        "outside" | "external" => Some("outdoors"),
        "inside" | "internal" => Some("indoors"),
        _ => None,
    }
}
