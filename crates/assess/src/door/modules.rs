//! The modules in a door station's chain: keypads, readers, buttons, names. A module's place in the chain is
//! its address at the station.

use super::Assumptions;
use crate::calculation::{
    CalculationLine, Formula, FormulaSource, Input, InputSource, Limit, Quantity, Rounding, Symbol,
};
use latchline_finding::{Figure, Unit};
use latchline_site::catalogue::AccessoryKind;
use latchline_site::model::{Entrance, Site};

/// A module in the door station's chain.
#[derive(Debug, Clone, PartialEq)]
pub struct ModuleSheet {
    /// Its place in the chain, from 1.
    pub position: usize,
    /// Model name.
    pub model: String,
    /// What it is.
    pub kind: AccessoryKind,
    /// Current by day in amperes.
    pub current_a: f64,
    /// Current with illumination at night in amperes.
    pub night_current_a: f64,
}

/// The chain of one entrance.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ModuleChain {
    /// Its modules in order.
    pub modules: Vec<ModuleSheet>,
    /// Current that the station gives for them, in amperes, where its model states it.
    pub limit_a: Option<f64>,
    /// Most modules that the station takes, where its model states it.
    pub most_modules: Option<u32>,
    /// Assumed values in the currents.
    pub assumed: Assumptions,
}

impl ModuleChain {
    /// The chain of an entrance.
    pub fn of(site: &Site, entrance: &Entrance) -> Self {
        let station = site.station_model(&site.stations[entrance.station]);
        let mut assumed = Assumptions::default();
        let mut modules = Vec::new();
        for (index, name) in entrance.accessories.iter().enumerate() {
            let module = site.accessory(name);
            assumed.note(&module.head.name, "current", &module.current);
            let current_a = module.current.value.as_amps();
            let extra_a = module.night_current.as_ref().map_or(0.0, |extra| {
                assumed.note(&module.head.name, "night_current", extra);
                extra.value.as_amps()
            });
            modules.push(ModuleSheet {
                position: index + 1,
                model: module.head.name.clone(),
                kind: module.kind.value,
                current_a,
                night_current_a: current_a + extra_a,
            });
        }
        let limit_a = station.accessory_current.as_ref().map(|limit| {
            assumed.note(&station.head.name, "accessory_current", limit);
            limit.value.as_amps()
        });
        let most_modules = station.accessory_modules.as_ref().map(|most| most.value);
        ModuleChain { modules, limit_a, most_modules, assumed }
    }

    /// Current of all modules at night, in amperes.
    pub fn current_a(&self) -> f64 {
        self.modules.iter().map(|module| module.night_current_a).sum()
    }

    /// Current and length of the chain against what the station gives and takes; nothing without modules.
    pub fn calculation(&self) -> Vec<CalculationLine> {
        if self.modules.is_empty() {
            return Vec::new();
        }
        let inputs = self.modules.iter().map(|module| {
            let part = module.model.clone();
            let source = InputSource::Keys { part, first: "current".into(), second: "night_current".into() };
            Input::new(Symbol::CurrentOfOne, module.night_current_a, Unit::Ampere, source)
                .rounded(Rounding::Up)
        });
        let count = self.modules.len() as f64;
        vec![
            CalculationLine {
                quantity: Quantity::CurrentOfModules,
                formula: Formula::SumOfCurrents,
                inputs: inputs.collect(),
                result: Figure::new(self.current_a(), Unit::Ampere),
                rounding: Rounding::Up,
                limit: self.limit_a.map(|limit_a| Limit::most(limit_a, Unit::Ampere)),
                source: FormulaSource::CurrentLawModules,
            },
            CalculationLine {
                quantity: Quantity::LengthOfChain,
                formula: Formula::Count,
                inputs: vec![Input::new(Symbol::Count, count, Unit::Count, InputSource::ModulesOfEntrance)],
                result: Figure::new(count, Unit::Count),
                rounding: Rounding::Nearest,
                limit: self.most_modules.map(|most| Limit::most(f64::from(most), Unit::Count)),
                source: FormulaSource::Count,
            },
        ]
    }
}
