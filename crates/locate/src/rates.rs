//! How often each cause is met, and what it shows as: a table that can be edited.

use crate::kind::{Kind, SymptomKind};
use crate::text_line::line_of;
use latchline_finding::Both;
use latchline_site::parse::toml_mistake;
use std::collections::BTreeMap;

/// The table that is used unless another is given.
pub const BUILT_IN: &str = include_str!("rates.toml");

/// Probability that a station that would notice is told of, in tables that do not say it (common practice, no source).
const TOLD_OF: f64 = 0.1;

/// Probability that a reading is taken carelessly, in tables that do not say it (common practice, no source).
const CARELESS: f64 = 0.03;

/// Which of the two columns of the table holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Age {
    /// Within a month of installation.
    FirstMonth,
    /// Later.
    #[default]
    InService,
}

/// How often a kind is met, and the range of its size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KindRate {
    /// Probability in the first month, in service.
    pub prior: [f64; 2],
    /// Lowest and highest size, where it has one.
    pub range: Option<(f64, f64)>,
}

/// The table, read.
#[derive(Debug, Clone, PartialEq)]
pub struct Rates {
    /// By kind.
    pub kinds: BTreeMap<Kind, KindRate>,
    /// Probability that a symptom is told, by symptom and kind.
    pub symptoms: BTreeMap<SymptomKind, BTreeMap<Kind, f64>>,
    /// Probability that a symptom is told though the cause does not explain it.
    pub other: BTreeMap<SymptomKind, f64>,
    /// Prior probability of something that the list does not have.
    pub none_of_these: f64,
    /// Probability that a reading is wrong.
    pub wrong_reading: f64,
    /// Probability that a reading is taken carelessly: its error is five times the meter's.
    pub careless_reading: f64,
    /// Probability that a station that would notice is told of.
    pub told_of: f64,
}

/// What is wrong with a table of rates.
#[derive(Debug, Clone, PartialEq)]
pub enum RatesError {
    /// No TOML.
    Syntax {
        /// The line, from 1.
        line: usize,
        /// What is wrong there.
        detail: Both,
    },
    /// A key that is missing, of the wrong type or out of range: its path.
    Value(String),
    /// A kind, group or symptom that is not known: its path.
    Unknown(String),
    /// A group whose shares do not add up to one.
    Shares(String),
}

impl Rates {
    /// Reads a table.
    ///
    /// # Errors
    /// [`RatesError`] naming the first key at fault.
    pub fn read(text: &str) -> Result<Self, RatesError> {
        let table: toml::Table = text.parse().map_err(|error: toml::de::Error| RatesError::Syntax {
            line: line_of(text, error.span().map_or(0, |span| span.start)),
            detail: toml_mistake(error.message()),
        })?;
        let section = |name: &str| {
            table.get(name).and_then(toml::Value::as_table).ok_or_else(|| RatesError::Value(name.to_string()))
        };
        for key in table.keys() {
            if ![
                "none_of_these",
                "wrong_reading",
                "careless_reading",
                "told_of",
                "groups",
                "kinds",
                "symptoms",
            ]
            .contains(&key.as_str())
            {
                return Err(RatesError::Unknown(key.clone()));
            }
        }
        let groups = section("groups")?;
        let mut kinds = BTreeMap::new();
        let mut shares: BTreeMap<&str, f64> = BTreeMap::new();
        for (name, value) in section("kinds")? {
            let path = format!("kinds.{name}");
            let kind = Kind::of_name(name).ok_or_else(|| RatesError::Unknown(path.clone()))?;
            let group = value.get("group").and_then(toml::Value::as_str);
            let group = group.ok_or_else(|| RatesError::Value(format!("{path}.group")))?;
            let rates = groups.get(group).ok_or_else(|| RatesError::Unknown(format!("{path}.group")))?;
            let rate = |age: &str| number(rates.get(age), 0.0, 100.0, &format!("groups.{group}.{age}"));
            let share = number(value.get("share"), 0.0, 1.0, &format!("{path}.share"))?;
            *shares.entry(group).or_default() += share;
            let prior = [rate("first-month")? * share / 100.0, rate("in-service")? * share / 100.0];
            let range = match (value.get("low"), value.get("high")) {
                (None, None) => None,
                (low, high) => {
                    let low = number(low, 1e-6, 1e9, &format!("{path}.low"))?;
                    Some((low, number(high, low * (1.0 + 1e-9), 1e9, &format!("{path}.high"))?))
                }
            };
            if range.is_none() && has_size(kind) {
                return Err(RatesError::Value(format!("{path}.low")));
            }
            kinds.insert(kind, KindRate { prior, range });
        }
        if let Some((group, _)) = shares.iter().find(|(_, sum)| (**sum - 1.0).abs() > 1e-6) {
            return Err(RatesError::Shares(group.to_string()));
        }
        let mut symptoms = BTreeMap::new();
        let mut other = BTreeMap::new();
        for (name, value) in section("symptoms")? {
            let path = format!("symptoms.{name}");
            let symptom = SymptomKind::of_name(name).ok_or_else(|| RatesError::Unknown(path.clone()))?;
            let rows = value.as_table().ok_or_else(|| RatesError::Value(path.clone()))?;
            let mut by_kind = BTreeMap::new();
            for (name, value) in rows {
                let path = format!("{path}.{name}");
                let probability = number(Some(value), 1e-9, 1.0, &path)?;
                if name == "other" {
                    other.insert(symptom, probability);
                } else {
                    by_kind.insert(Kind::of_name(name).ok_or(RatesError::Unknown(path))?, probability);
                }
            }
            symptoms.insert(symptom, by_kind);
        }
        Ok(Rates {
            kinds,
            symptoms,
            other,
            none_of_these: number(table.get("none_of_these"), 0.0, 99.0, "none_of_these")? / 100.0,
            wrong_reading: number(table.get("wrong_reading"), 1e-6, 0.5, "wrong_reading")?,
            careless_reading: match table.get("careless_reading") {
                None => CARELESS,
                given => number(given, 0.0, 0.4, "careless_reading")?,
            },
            told_of: match table.get("told_of") {
                None => TOLD_OF,
                given => number(given, 1e-3, 1.0 - 1e-9, "told_of")?,
            },
        })
    }

    /// The built-in table.
    pub fn built_in() -> Self {
        Rates::read(BUILT_IN).expect("the built-in table is read in a test")
    }

    /// Prior probability of a kind, over all elements.
    pub fn prior(&self, kind: Kind, age: Age) -> f64 {
        self.kinds.get(&kind).map_or(0.0, |rate| rate.prior[age as usize])
    }

    /// Probability that a symptom is told of a place that a cause of this kind concerns.
    pub fn told(&self, symptom: SymptomKind, kind: Kind) -> f64 {
        let known = self.symptoms.get(&symptom).and_then(|kinds| kinds.get(&kind));
        known.copied().unwrap_or_else(|| self.told_anyway(symptom))
    }

    /// Probability that it is told though the cause does not explain it.
    pub fn told_anyway(&self, symptom: SymptomKind) -> f64 {
        self.other.get(&symptom).copied().unwrap_or(0.01)
    }
}

/// Kinds that have a size.
pub(crate) fn has_size(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Joint
            | Kind::Short
            | Kind::ShortResistive
            | Kind::ThinConductor
            | Kind::CladAluminium
            | Kind::LongerRun
            | Kind::StationOverdraw
            | Kind::BridgedTap
            | Kind::DoorOverdraw
            | Kind::SupplyLow
            | Kind::SupplySoft
            | Kind::Leakage
            | Kind::LegToEarth
    )
}

fn number(value: Option<&toml::Value>, low: f64, high: f64, path: &str) -> Result<f64, RatesError> {
    let number = match value {
        Some(toml::Value::Integer(whole)) => *whole as f64,
        Some(toml::Value::Float(number)) => *number,
        _ => return Err(RatesError::Value(path.to_string())),
    };
    if number >= low && number <= high { Ok(number) } else { Err(RatesError::Value(path.to_string())) }
}
