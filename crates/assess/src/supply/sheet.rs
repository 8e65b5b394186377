//! The sheet of one supply, as owned data.

use super::battery::{BatteryFigures, battery_figures};
use super::lines::{battery_lines, mains_lines};
use super::mains::{MainsFigures, mains_figures};
use crate::calculation::CalculationLine;
use crate::stage::WithVoltages;
use latchline_finding::{Both, ElementId};
use latchline_words::missing::Missing;

/// The sheet of one supply.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplySheet {
    /// The supply.
    pub supply: ElementId,
    /// The same by index into the site's supplies.
    pub index: usize,
    /// Model name.
    pub model: String,
    /// Where it is, in words.
    pub place: Both,
    /// Ambient temperature of its cupboard in °C, where stated.
    pub ambient_c: Option<f64>,
    /// Highest ambient temperature at rated load in °C, where stated.
    pub ambient_limit_c: Option<f64>,
    /// Mains and heat; `None` where nothing is fed or there is no operating point.
    pub mains: Option<MainsFigures>,
    /// Its battery: `None` without one, the missing values where it could not be judged.
    pub battery: Option<Result<BatteryFigures, Vec<Missing>>>,
    /// Hours that the site asks of every battery.
    pub asked_hours: Option<f64>,
    /// The figures as a calculation, line by line.
    pub calculation: Vec<CalculationLine>,
}

impl SupplySheet {
    /// Whether the hours of its battery are judged: it has one, its data are complete, and the site asks for hours.
    pub fn judges_hours(&self) -> bool {
        matches!(&self.battery, Some(Ok(battery)) if battery.required_hours.is_some())
    }

    /// Assumed values under the hours of its battery, where the site asks for hours, and under its heat, as "part key".
    pub fn assumed(&self) -> Vec<String> {
        let mut list = match &self.battery {
            Some(Ok(battery)) if battery.required_hours.is_some() => battery.assumed.list().to_vec(),
            _ => Vec::new(),
        };
        if self.ambient_c.is_none() && self.ambient_limit_c.is_some() {
            list.push(format!("{} ambient", self.supply));
        }
        list
    }
}

/// The sheets of all supplies in file order.
pub fn supply_sheets(context: &WithVoltages<'_>) -> Vec<SupplySheet> {
    let site = context.site;
    let sheets = site.supplies.iter().enumerate().map(|(index, supply)| {
        let model = site.supply_model(supply);
        let mains = mains_figures(context, index);
        let battery = battery_figures(context, index);
        let mut calculation = Vec::new();
        if let Some(Ok(battery)) = &battery {
            battery_lines(&model.head.name, battery, &mut calculation);
        }
        if let Some(mains) = &mains {
            mains_lines(context, index, mains, &mut calculation);
        }
        SupplySheet {
            supply: supply.id.clone(),
            index,
            model: model.head.name.clone(),
            place: site.place_words(&supply.place),
            ambient_c: supply.ambient.as_ref().map(|ambient| ambient.value.as_celsius()),
            ambient_limit_c: model.ambient_limit.as_ref().map(|limit| limit.value.as_celsius()),
            mains,
            battery,
            asked_hours: site.policy.standby_hours.as_ref().map(|hours| hours.value),
            calculation,
        }
    });
    sheets.collect()
}
