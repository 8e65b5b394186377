//! Types of Rust for values of the files.

use super::{Record, Value};
use crate::keys::{Gauge, LoadValue};
use latchline_finding::quantity::{
    Capacitance, CapacitancePerLength, Charge, Current, Decibels, Duration, Frequency, Inductance,
    InductancePerLength, Length, Power, Ratio, Resistance, Temperature, Voltage,
};
use latchline_finding::{Money, Provenance, Sourced};

/// A type that one value of a file can have.
pub trait FromValue: Sized {
    /// The value; `None` if it is of another type.
    fn from_value(value: &Value<'_>) -> Option<Self>;
}

/// A type that the field of a key can have.
pub trait Readable: Sized {
    /// What is taken where nothing is written.
    type Usual;

    /// Reads the key; `None` where it is absent or refused.
    fn read(record: &Record<'_>, key: &str, provenance: Provenance) -> Option<Self>;

    /// The field where nothing is written.
    fn usual(usual: Self::Usual) -> Self;
}

impl<T: FromValue> Readable for Sourced<T> {
    type Usual = T;

    fn read(record: &Record<'_>, key: &str, provenance: Provenance) -> Option<Self> {
        record.sourced(key, provenance, T::from_value)
    }

    fn usual(usual: T) -> Self {
        Sourced::assumed(usual)
    }
}

/// Fields that need neither origin nor provenance.
macro_rules! plain {
    ($($type:ty),*) => {$(
        impl $crate::parse::Readable for $type {
            type Usual = $type;

            fn read(
                record: &$crate::parse::Record<'_>,
                key: &str,
                _: latchline_finding::Provenance,
            ) -> Option<Self> {
                <$type as $crate::parse::FromValue>::from_value(&record.field(key)?.value)
            }

            fn usual(usual: $type) -> Self {
                usual
            }
        }
    )*};
}

pub(crate) use plain;

plain!(String, bool, u32, Vec<u32>);

macro_rules! quantities {
    ($($type:ident::$from_base:ident),* $(,)?) => {$(
        impl FromValue for $type {
            fn from_value(value: &Value<'_>) -> Option<Self> {
                match value {
                    Value::Quantity(number) => Some($type::$from_base(*number)),
                    _ => None,
                }
            }
        }
    )*};
}

quantities!(
    Capacitance::from_farads,
    CapacitancePerLength::from_farads_per_metre,
    Charge::from_amp_hours,
    Current::from_amps,
    Decibels::from_decibels,
    Duration::from_seconds,
    Frequency::from_hertz,
    Inductance::from_henries,
    InductancePerLength::from_henries_per_metre,
    Length::from_metres,
    Power::from_watts,
    Resistance::from_ohms,
    Temperature::from_celsius,
    Voltage::from_volts,
);

macro_rules! values {
    ($($pattern:pat => $type:ty: $read:expr;)*) => {$(
        impl FromValue for $type {
            fn from_value(value: &Value<'_>) -> Option<Self> {
                match value {
                    $pattern => Some($read),
                    _ => None,
                }
            }
        }
    )*};
}

values! {
    // Written in per cent, or as a bare number.
    Value::Quantity(number) | Value::Number(number) => Ratio: Ratio::from_fraction(*number);
    Value::Integer(number) => u32: *number;
    Value::Number(number) => f64: *number;
    Value::Number(number) => Money: Money::from_units(*number);
    Value::Boolean(truth) => bool: *truth;
    Value::Load(load) => LoadValue: *load;
    Value::Gauge(gauge) => Gauge: *gauge;
}

impl FromValue for String {
    fn from_value(value: &Value<'_>) -> Option<Self> {
        match value {
            Value::Text(text) => Some((*text).to_string()),
            Value::Date(date) => Some(date.clone()),
            _ => None,
        }
    }
}

impl<T: FromValue> FromValue for Vec<T> {
    fn from_value(value: &Value<'_>) -> Option<Self> {
        match value {
            Value::List(items) => Some(items.iter().filter_map(|item| T::from_value(&item.value)).collect()),
            _ => None,
        }
    }
}

impl Record<'_> {
    /// A key; `None` where it is absent or refused.
    pub fn read<T: Readable>(&self, key: &str, provenance: Provenance) -> Option<T> {
        T::read(self, key, provenance)
    }

    /// The items of a list, each with its place; none where it is absent or refused.
    pub fn items<T: FromValue>(&self, key: &str, provenance: Provenance) -> Vec<Sourced<T>> {
        let items = self.list(key).iter();
        items
            .filter_map(|item| {
                Some(Sourced::new(T::from_value(&item.value)?, self.at(&item.span), provenance))
            })
            .collect()
    }
}
