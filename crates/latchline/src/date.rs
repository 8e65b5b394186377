//! Today's date, or the one that SOURCE_DATE_EPOCH fixes for repeatable output.

use crate::refusal::{Refusal, Result};
use jiff::civil::Date;
use latchline_words::refusals::ArgumentRefusal;

/// The date to write: the one given (YYYY-MM-DD), else that of SOURCE_DATE_EPOCH, else today.
///
/// # Errors
/// If the given date or SOURCE_DATE_EPOCH cannot be understood.
pub fn chosen(given: Option<&str>) -> Result<String> {
    if let Some(text) = given {
        return checked(text);
    }
    Ok(fixed()?.unwrap_or_else(|| jiff::ZonedDateTime::now().date().to_string()))
}

/// The date that SOURCE_DATE_EPOCH fixes, if it is set.
///
/// # Errors
/// If it cannot be understood.
#[expect(clippy::disallowed_methods, reason = "the environment is read here and passed on")]
pub fn fixed() -> Result<Option<String>> {
    std::env::var("SOURCE_DATE_EPOCH").ok().map(|seconds| from_epoch(&seconds)).transpose()
}

/// A moment as it is told: day and minute in the zone of this machine, or in UTC if SOURCE_DATE_EPOCH is set.
#[expect(clippy::disallowed_methods, reason = "the environment is read here and passed on")]
pub fn minute(at_ms: i64) -> Option<String> {
    let zone = match std::env::var("SOURCE_DATE_EPOCH") {
        Ok(_) => jiff::tz::TimeZone::UTC,
        Err(_) => jiff::tz::TimeZone::system(),
    };
    let moment = jiff::Timestamp::from_millisecond(at_ms).ok()?;
    Some(moment.to_zoned_datetime(zone).strftime("%Y-%m-%d %H:%M").to_string())
}

/// Now, in milliseconds since the beginning of 1970, UTC.
pub fn now_ms() -> i64 {
    jiff::Timestamp::now().as_millisecond()
}

fn checked(text: &str) -> Result<String> {
    let is_plain = text.len() == 10 && text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'-');
    match text.parse::<Date>() {
        Ok(date) if is_plain => Ok(date.to_string()),
        _ => Err(ArgumentRefusal::NoDate { text }.into()),
    }
}

fn from_epoch(seconds: &str) -> Result<String> {
    let seconds: i64 = seconds.trim().parse().map_err(|_| ArgumentRefusal::EpochNoNumber { seconds })?;
    let moment = jiff::Timestamp::from_second(seconds)
        .map_err(|_| Refusal::from(ArgumentRefusal::EpochBeyond { seconds: &seconds.to_string() }))?;
    Ok(moment.to_zoned_datetime(jiff::tz::TimeZone::UTC).date().to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_are_checked() {
        assert_eq!(checked("2026-11-02").unwrap(), "2026-11-02");
        for wrong in ["2026-02-30", "2.11.2026", "", "2026-11-02T00:00", "20261102"] {
            assert!(checked(wrong).unwrap_err().to_string().contains("2026-11-02"), "{wrong}");
        }
    }

    #[test]
    fn the_epoch_is_counted_in_utc() {
        assert_eq!(from_epoch("0").unwrap(), "1970-01-01");
        assert_eq!(from_epoch("1700000000").unwrap(), "2023-11-14");
        assert!(from_epoch("soon").is_err());
        assert!(from_epoch("9223372036854775807").is_err());
    }
}
