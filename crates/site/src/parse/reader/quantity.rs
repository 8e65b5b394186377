//! Loads and conductors, which may be written in one of several units, and what is wrong with a quantity.

use super::{Context, Reader};
use crate::codes;
use crate::keys::{
    Bounds, Dimension, Gauge, Kind, LoadValue, QuantityError, UNITS, leading_number, read_number_and_unit,
    read_quantity, readings_of_comma, spelled_unit, without_groups,
};
use crate::parse::{Value, clip};
use latchline_finding::quantity::{Area, Current, Power, Resistance, ResistancePerLength};
use std::ops::Range;

const LOAD_DIMENSIONS: &[Dimension] = &[Dimension::Power, Dimension::Current, Dimension::Resistance];
const GAUGE_DIMENSIONS: &[Dimension] =
    &[Dimension::Area, Dimension::Length, Dimension::WireGauge, Dimension::ResistancePerLength];

const fn range(dimension: Dimension, low: f64, high: f64) -> Bounds {
    Bounds { dimension, low, high, low_text: "", high_text: "", example: "" }
}

/// Accepted loads; zero is said by leaving the key out, except in standby.
static LOAD_RANGES: &[Bounds] = &[
    range(Dimension::Power, 0.0, 500.0),
    range(Dimension::Current, 0.0, 20.0),
    range(Dimension::Resistance, 1.0, 1e8),
];

static GAUGE_RANGES: &[Bounds] = &[
    range(Dimension::Area, 0.02, 50.0),
    range(Dimension::Length, 0.1e-3, 8e-3),
    range(Dimension::WireGauge, 4.0, 40.0),
    range(Dimension::ResistancePerLength, 1e-4, 10.0),
];

impl Reader<'_> {
    pub(super) fn bad_quantity(
        &mut self,
        written: &str,
        span: &Range<usize>,
        error: QuantityError<'_>,
        kind: &Kind,
        dimensions: &[Dimension],
        context: Context<'_>,
    ) {
        let code = match error {
            QuantityError::NotANumber | QuantityError::GroupedDigits => codes::NOT_A_QUANTITY,
            QuantityError::NoUnit => codes::UNIT_MISSING,
            QuantityError::DecimalComma => codes::DECIMAL_COMMA,
            QuantityError::UnknownUnit(_) => codes::UNKNOWN_UNIT,
            QuantityError::WrongDimension(_) => codes::WRONG_UNIT,
            QuantityError::OutOfRange => return self.out_of_range(span, context, written, kind),
        };
        let units: Vec<String> =
            dimensions.iter().flat_map(|dimension| dimension.symbols()).map(str::to_string).collect();
        let mut finding = self
            .finding(code, span, context.element)
            .with("key", context.key)
            .with("written", clip(written))
            .with("expected", kind.expected());
        match error {
            QuantityError::DecimalComma => {
                let readings: Vec<String> =
                    readings_of_comma(written).iter().map(|text| clip(text)).collect();
                finding = finding.with("suggestion", readings);
            }
            QuantityError::UnknownUnit(unit) => {
                let lower = unit.to_lowercase();
                let mut nearest: Vec<String> =
                    units.iter().filter(|symbol| symbol.to_lowercase() == lower).cloned().collect();
                let spelled = spelled_unit(unit).filter(|meant| units.iter().any(|own| own == meant.symbol));
                if let Some(meant) = spelled.filter(|_| nearest.is_empty()) {
                    nearest.push(meant.symbol.to_string());
                    if let Some(((one, factor), number)) = meant.in_metres.zip(leading_number(written)) {
                        let metres = format!("{:.4}", number * factor);
                        let metres = metres.trim_end_matches('0').trim_end_matches('.');
                        finding = finding
                            .with("metres", format!("{metres} m"))
                            .with("one", format!("1 {one} = {factor} m"));
                    }
                }
                finding = finding.with("unit", clip(unit)).with("nearest", nearest).with("units", units);
            }
            QuantityError::WrongDimension(found) => {
                finding = finding.with("found", found.words().both()).with("units", units);
            }
            QuantityError::NoUnit => finding = finding.with("units", units),
            QuantityError::GroupedDigits => {
                finding = finding.with("suggestion", clip(&without_groups(written).unwrap_or_default()));
            }
            QuantityError::NotANumber | QuantityError::OutOfRange => {}
        }
        self.findings.push(finding);
    }

    /// A number without quotes and without a unit where a quantity is wanted.
    pub(super) fn bare_number(
        &mut self,
        written: &str,
        span: &Range<usize>,
        kind: &Kind,
        context: Context<'_>,
    ) {
        let dimensions: &[Dimension] = match kind {
            Kind::Quantity(bounds) => &[bounds.dimension],
            Kind::Load => LOAD_DIMENSIONS,
            _ => GAUGE_DIMENSIONS,
        };
        let error = match written.trim_start_matches(['+', '-']) {
            "nan" | "inf" => QuantityError::NotANumber,
            _ => QuantityError::NoUnit,
        };
        self.bad_quantity(written, span, error, kind, dimensions, context);
    }

    /// Reads a quantity of one of several dimensions; the first range is for messages.
    fn one_of<'t>(text: &'t str, ranges: &'static [Bounds]) -> Result<(f64, Dimension), QuantityError<'t>> {
        let (_, symbol) = read_number_and_unit(text)?;
        let symbol = symbol.ok_or(QuantityError::NoUnit)?;
        let range = ranges.iter().find(|range| {
            UNITS.iter().any(|unit| unit.symbol == symbol && unit.dimension == range.dimension)
        });
        match range {
            Some(range) => read_quantity(text, range).map(|value| (value, range.dimension)),
            None => Err(UNITS
                .iter()
                .find(|unit| unit.symbol == symbol)
                .map_or(QuantityError::NoUnit, |unit| QuantityError::WrongDimension(unit.dimension))),
        }
    }

    pub(super) fn load<'d>(
        &mut self,
        text: &str,
        span: &Range<usize>,
        kind: &Kind,
        context: Context<'_>,
    ) -> Option<Value<'d>> {
        match Self::one_of(text, LOAD_RANGES) {
            Ok((value, Dimension::Power)) => Some(Value::Load(LoadValue::Power(Power::from_watts(value)))),
            Ok((value, Dimension::Current)) => {
                Some(Value::Load(LoadValue::Current(Current::from_amps(value))))
            }
            Ok((value, _)) => Some(Value::Load(LoadValue::Resistance(Resistance::from_ohms(value)))),
            Err(error) => {
                self.bad_quantity(text, span, error, kind, LOAD_DIMENSIONS, context);
                None
            }
        }
    }

    pub(super) fn gauge<'d>(
        &mut self,
        text: &str,
        span: &Range<usize>,
        kind: &Kind,
        context: Context<'_>,
    ) -> Option<Value<'d>> {
        let swapped = text.trim().strip_prefix("AWG").map(|number| format!("{} AWG", number.trim()));
        let written = swapped.as_deref().unwrap_or(text);
        let gauge = match Self::one_of(written, GAUGE_RANGES) {
            Ok((value, Dimension::Area)) => {
                Ok(Gauge::CrossSection { area: Area::from_square_millimetres(value), class: 0 })
            }
            Ok((value, Dimension::WireGauge)) if value.fract() == 0.0 => Ok(Gauge::Awg(value as u8)),
            Ok((_, Dimension::WireGauge)) => Err(QuantityError::OutOfRange),
            Ok((value, Dimension::Length)) => Ok(Gauge::DiameterMm(value * 1e3)),
            Ok((value, _)) => Ok(Gauge::Resistance(ResistancePerLength::from_ohms_per_metre(value))),
            Err(error) => Err(error),
        };
        match gauge {
            Ok(gauge) => Some(Value::Gauge(gauge)),
            Err(error) => {
                self.bad_quantity(text, span, error, kind, GAUGE_DIMENSIONS, context);
                None
            }
        }
    }
}
