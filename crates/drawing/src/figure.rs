//! Numbers as they are lettered: roundings that never flatter.

use latchline_site::catalogue::Gauge;
use latchline_site::model::{Run, Site};

/// A voltage or margin rounded down to a tenth, so that what is shown is never better than what
/// was computed.
pub(crate) fn rounded_down(value: f64) -> String {
    let tenths = (value * 10.0 + 1e-9).floor() / 10.0;
    if tenths == 0.0 { String::from("0.0") } else { format!("{tenths:.1}") }
}

/// A current or load rounded up to a hundredth.
pub(crate) fn rounded_up(value: f64) -> String {
    format!("{:.2}", (value * 100.0 - 1e-9).ceil() / 100.0)
}

/// A number with at most `decimals` decimals and no trailing zeros.
pub(crate) fn trimmed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    if !text.contains('.') {
        return text;
    }
    let text = text.trim_end_matches('0').trim_end_matches('.');
    String::from(if text == "-0" { "0" } else { text })
}

/// A length in metres.
pub(crate) fn metres(length_m: f64) -> String {
    format!("{} m", trimmed(length_m, if length_m < 10.0 { 1 } else { 0 }))
}

/// The conductor of a run: "0.8 mm", "2 × 1.5 mm²".
pub(crate) fn conductor(site: &Site, run: &Run) -> String {
    let size = match site.cable(run).gauge.value {
        Gauge::CrossSection { area, .. } => {
            let area = format!("{:.2}", area.as_square_millimetres());
            format!("{} mm²", area.strip_suffix('0').unwrap_or(&area))
        }
        Gauge::Awg(number) => format!("{number} AWG"),
        Gauge::DiameterMm(diameter) => format!("{} mm", trimmed(diameter, 2)),
        Gauge::Resistance(resistance) => {
            format!("{} ohm/km", trimmed(resistance.as_ohms_per_metre() * 1000.0, 1))
        }
    };
    match run.pairs.value {
        1 => size,
        pairs => format!("{pairs} × {size}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roundings_never_flatter() {
        assert_eq!([rounded_down(41.29), rounded_down(-0.04), rounded_down(41.2)], ["41.2", "-0.1", "41.2"]);
        assert_eq!([rounded_up(1.231), rounded_up(1.23)], ["1.24", "1.23"]);
        assert_eq!([metres(8.25), metres(42.4), metres(100.0)], ["8.2 m", "42 m", "100 m"]);
    }
}
