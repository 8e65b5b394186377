//! Lights at a door: what feeds each, and what the door station's light output must give.

use super::Assumptions;
use super::circuit::CURRENT_TOLERANCE;
use crate::calculation::{
    CalculationLine, Formula, FormulaSource, Input, InputSource, Limit, Quantity, Rounding, Symbol,
};
use crate::context::Context;
use latchline_finding::{Figure, Unit};
use latchline_network::Corner;
use latchline_site::catalogue::{Feed, Light, LightKind};
use latchline_site::model::{Entrance, LightFeed, LightUse, LitWhen};

/// One light of an entrance.
#[derive(Debug, Clone, PartialEq)]
pub struct LightSheet {
    /// Which of the entrance's lights, from 1.
    pub number: usize,
    /// Model name.
    pub model: String,
    /// What it shines on.
    pub kind: LightKind,
    /// Kind of current it is made for.
    pub current_kind: Feed,
    /// From where it takes its power.
    pub feed: LightFeed,
    /// When it is on.
    pub lit: LitWhen,
    /// Rated voltage in volts.
    pub rated_v: f64,
    /// Current at rated voltage in amperes.
    pub current_a: f64,
    /// Nominal voltage of what feeds it, in volts: `None` on a supply of its own, or where the station has no
    /// light output.
    pub feed_v: Option<f64>,
}

impl LightSheet {
    /// What an ammeter finds in its lead while it shines, in amperes: least, nominal, most. A light's current is as far from its rated one as a
    /// lock's may be.
    pub fn drawn_a(&self) -> [f64; 3] {
        [1.0 - CURRENT_TOLERANCE, 1.0, 1.0 + CURRENT_TOLERANCE].map(|share| share * self.current_a)
    }
}

/// The lights of an entrance in file order.
pub fn light_sheets(context: &Context<'_>, entrance: &Entrance) -> Vec<LightSheet> {
    let lights = entrance.lights.iter().enumerate();
    lights
        .map(|(index, used)| {
            let light = context.site.light(used);
            LightSheet {
                number: index + 1,
                model: light.head.name.clone(),
                kind: light.kind.value,
                current_kind: light.feed.value,
                feed: used.feed.value,
                lit: used.lit.value,
                rated_v: light.voltage.value.as_volts(),
                current_a: light.rated_current().as_amps(),
                feed_v: feed_v(context, entrance, used),
            }
        })
        .collect()
}

/// Nominal voltage of what feeds a light.
fn feed_v(context: &Context<'_>, entrance: &Entrance, used: &LightUse) -> Option<f64> {
    let site = context.site;
    match used.feed.value {
        LightFeed::Station => {
            let station = site.station_model(&site.stations[entrance.station]);
            Some(station.light_output_voltage.as_ref()?.value.as_volts())
        }
        LightFeed::Bus => {
            let at = context.layout.station[entrance.station]?;
            Some(context.layout.stages[at.stage].voltage_v[Corner::Nominal.index()])
        }
        LightFeed::OwnSupply => None,
    }
}

/// What the lights take from the door station's light output, all of them on.
#[derive(Debug, Clone, PartialEq)]
pub struct LightOutput {
    /// How many lights hang on it.
    pub lights: usize,
    /// Their current in amperes.
    pub current_a: f64,
    /// Current that the output gives, where the model states it.
    pub limit_a: Option<f64>,
    /// The sum as a calculation.
    pub calculation: CalculationLine,
    /// Assumed values in it.
    pub assumed: Assumptions,
}

/// The load of the station's light output; `None` where no light hangs on it.
pub fn light_output(context: &Context<'_>, entrance: &Entrance) -> Option<LightOutput> {
    let site = context.site;
    let station = site.station_model(&site.stations[entrance.station]);
    let fed = entrance.lights.iter().filter(|used| used.feed.value == LightFeed::Station);
    let lights: Vec<&Light> = fed.map(|used| site.light(used)).collect();
    if lights.is_empty() {
        return None;
    }
    let mut assumed = Assumptions::default();
    for light in &lights {
        assumed.note(&light.head.name, "load", &light.load);
    }
    let limit_a = station.light_output_current.as_ref().map(|limit| {
        assumed.note(&station.head.name, "light_output_current", limit);
        limit.value.as_amps()
    });
    let current_a = lights.iter().map(|light| light.rated_current().as_amps()).sum();
    let inputs = lights.iter().map(|light| {
        let source = InputSource::LoadAtRatedVoltage { light: light.head.name.clone() };
        Input::new(Symbol::CurrentOfOne, light.rated_current().as_amps(), Unit::Ampere, source)
            .rounded(Rounding::Up)
    });
    let calculation = CalculationLine {
        quantity: Quantity::CurrentOfLightOutput,
        formula: Formula::SumOfCurrents,
        inputs: inputs.collect(),
        result: Figure::new(current_a, Unit::Ampere),
        rounding: Rounding::Up,
        limit: limit_a.map(|limit_a| Limit::most(limit_a, Unit::Ampere)),
        source: FormulaSource::CurrentLawLights,
    };
    Some(LightOutput { lights: lights.len(), current_a, limit_a, calculation, assumed })
}
