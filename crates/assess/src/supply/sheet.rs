//! The sheet of one supply, as owned data.

use super::battery::{BatteryFigures, battery_figures};
use super::stage_of_supply;
use crate::calculation::{
    CalculationLine, Formula, FormulaSource, Input, InputSource, Limit, Quantity, Rounding, Symbol,
};
use crate::context::Context;
use crate::stage::WithVoltages;
use latchline_circuit::battery::{AGEING_FACTOR, derated_power_w, heat_w, mains_current_a};
use latchline_finding::{Both, ElementId, Figure, StateKind, Unit};
use latchline_words::missing::Missing;

/// What a supply takes from the mains, and its heat.
#[derive(Debug, Clone, PartialEq)]
pub struct MainsFigures {
    /// Largest power at its terminals in any of its states with mains, in watts.
    pub output_w: f64,
    /// The state.
    pub state: StateKind,
    /// Charging power on top, in watts: the greatest charging current at the battery's nominal voltage, and
    /// not more than the load leaves of the rated power, since the bus comes first (common practice, no
    /// source).
    pub charging_w: f64,
    /// Whether the load leaves less than the greatest charging current takes.
    pub charging_waits: bool,
    /// Mains current in amperes; `None` where efficiency, power factor or mains voltage is not stated.
    pub mains_current_a: Option<f64>,
    /// Heat in the cupboard in watts; `None` where the efficiency is not stated.
    pub heat_w: Option<f64>,
    /// Power that it may give at the temperature of its cupboard, in watts; `None` where that is not above the
    /// limit at rated load, or the model states no derating.
    pub derated_w: Option<f64>,
    /// What is not stated ("ostrel-ps-120 efficiency").
    pub missing: Vec<Missing>,
}

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

/// Mains and heat of a supply in its busiest state.
pub fn mains_figures(context: &WithVoltages<'_>, supply: usize) -> Option<MainsFigures> {
    let stage = stage_of_supply(context, supply)?;
    let model = context.site.supply_model(&context.site.supplies[supply]);
    // The battery's end never coincides with charging.
    let has_mains = |phase: usize| context.space.phases[phase].kind != StateKind::BatteryEnd;
    let power = context.worst.largest_power(stage, has_mains)?;
    let phase = &context.space.phases[power.phase];
    let output_w = power.power_w?;
    let greatest_w = model.battery.as_ref().map_or(0.0, |battery| {
        let current_a = battery.charge_current.as_ref().map_or(0.0, |current| current.value.as_amps());
        current_a * battery.voltage.value.as_volts()
    });
    let room_w = model
        .rated_power
        .as_ref()
        .map_or(f64::INFINITY, |rated| (rated.value.as_watts() - output_w).max(0.0));
    let charging_w = greatest_w.min(room_w);
    let name = &model.head.name;
    let mut missing = Vec::new();
    let mut need = |key: &'static str, is_missing: bool| {
        if is_missing {
            missing.push(Missing::key(name, key));
        }
    };
    need("efficiency", model.efficiency.is_none());
    need("power_factor", model.power_factor.is_none());
    need("mains_voltage", model.mains_voltage.is_none());
    let efficiency = model.efficiency.as_ref().map(|efficiency| efficiency.value.as_fraction());
    let all_w = output_w + charging_w;
    let mains_current_a = match (efficiency, &model.power_factor, &model.mains_voltage) {
        (Some(efficiency), Some(factor), Some(mains)) => {
            mains_current_a(all_w, efficiency, factor.value.as_fraction(), mains.value.as_volts()).ok()
        }
        _ => None,
    };
    Some(MainsFigures {
        output_w,
        state: phase.kind,
        charging_w,
        charging_waits: room_w < greatest_w,
        mains_current_a,
        derated_w: derated_w(context, supply),
        heat_w: efficiency.and_then(|efficiency| heat_w(all_w, efficiency).ok()),
        missing,
    })
}

/// Power that a supply may give in a cupboard hotter than its limit at rated load.
fn derated_w(context: &Context<'_>, supply: usize) -> Option<f64> {
    let supply = &context.site.supplies[supply];
    let model = context.site.supply_model(supply);
    let ambient_c = super::hottest_c(supply);
    let limit_c = model.ambient_limit.as_ref()?.value.as_celsius();
    let slope = model.derating_per_kelvin.as_ref()?.value.as_fraction();
    let rated_w = model.rated_power.as_ref()?.value.as_watts();
    (ambient_c > limit_c).then(|| derated_power_w(rated_w, limit_c, slope, ambient_c).ok())?
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

fn battery_lines(name: &str, battery: &BatteryFigures, lines: &mut Vec<CalculationLine>) {
    let part = format!("{name} battery");
    let of_key = |symbol, value, unit, key| Input::of_key(symbol, value, unit, &part, key);
    lines.push(CalculationLine {
        quantity: Quantity::CapacityCountedOn,
        formula: Formula::CapacityCountedOn,
        inputs: vec![
            of_key(Symbol::Capacity, battery.capacity_ah, Unit::AmpereHour, "capacity"),
            Input::new(Symbol::Ageing, AGEING_FACTOR, Unit::Ratio, InputSource::Ageing),
            Input::new(
                Symbol::TemperatureFactor,
                battery.temperature_factor,
                Unit::Ratio,
                InputSource::TemperatureFactor,
            ),
        ],
        result: Figure::new(battery.effective_ah, Unit::AmpereHour),
        rounding: Rounding::Down,
        limit: None,
        source: FormulaSource::Ieee485,
    });
    if let Some(load) = battery.shortest() {
        lines.push(CalculationLine {
            quantity: Quantity::BatteryCurrent,
            formula: Formula::BatteryCurrent,
            inputs: vec![
                Input::new(Symbol::Power, load.bus_power_w, Unit::Watt, InputSource::StandbyAdverse),
                of_key(Symbol::Efficiency, battery.efficiency, Unit::Percent, "efficiency"),
                of_key(Symbol::VoltageOfBattery, battery.voltage_v, Unit::Volt, "voltage"),
            ],
            result: Figure::new(load.battery_current_a, Unit::Ampere),
            rounding: Rounding::Up,
            limit: None,
            source: FormulaSource::Energy,
        });
        if let Some(calls) = &battery.calls {
            lines.push(CalculationLine {
                quantity: Quantity::CurrentWithCalls,
                formula: Formula::CurrentWithCalls,
                inputs: vec![
                    Input::of_key(
                        Symbol::CallsPerHour,
                        calls.per_hour,
                        Unit::Count,
                        "policy",
                        "calls_per_hour",
                    ),
                    Input::of_key(
                        Symbol::CallDuration,
                        calls.duration_s,
                        Unit::Second,
                        "policy",
                        "call_duration",
                    ),
                    Input::new(Symbol::Current, load.battery_current_a, Unit::Ampere, InputSource::LineAbove),
                    Input::new(
                        Symbol::CallCurrent,
                        calls.battery_current_a,
                        Unit::Ampere,
                        InputSource::OneCallFromBattery,
                    ),
                    of_key(Symbol::Exponent, battery.peukert_exponent, Unit::Ratio, "peukert_exponent"),
                ],
                result: Figure::new(load.with_calls_a, Unit::Ampere),
                rounding: Rounding::Up,
                limit: None,
                source: FormulaSource::PeukertMean,
            });
        }
        lines.push(CalculationLine {
            quantity: Quantity::StandbyHours,
            formula: Formula::StandbyHours,
            inputs: vec![
                of_key(Symbol::RatedHours, battery.rated_hours, Unit::Hour, "rated_hours"),
                Input::new(
                    Symbol::CapacityCountedOn,
                    battery.effective_ah,
                    Unit::AmpereHour,
                    InputSource::FirstLine,
                )
                .rounded(Rounding::Down),
                Input::new(Symbol::Current, load.with_calls_a, Unit::Ampere, InputSource::LineAbove),
                of_key(Symbol::Exponent, battery.peukert_exponent, Unit::Ratio, "peukert_exponent"),
            ],
            result: Figure::new(load.hours, Unit::Hour),
            rounding: Rounding::Down,
            limit: battery.required_hours.map(|hours| Limit::least(hours, Unit::Hour)),
            source: FormulaSource::Peukert,
        });
    }
    let heaviest_a = battery.loads.iter().map(|load| load.battery_current_a).fold(0.0, f64::max);
    if let (Some(required), Some((_, largest_a)), Some((annex_ah, factor)), Some(sum_ah)) =
        (battery.required_hours, battery.largest, battery.by_annex, battery.by_sum_ah)
    {
        let inputs = |last: Option<Input>| {
            let mut inputs = vec![
                Input::of_key(Symbol::StandbyHours, required, Unit::Hour, "policy", "standby_hours"),
                Input::new(Symbol::StandbyCurrent, heaviest_a, Unit::Ampere, InputSource::StandbyFromBattery),
                Input::new(
                    Symbol::LargestLoadHours,
                    super::battery::LARGEST_LOAD_HOURS,
                    Unit::Hour,
                    InputSource::HalfAnHour,
                ),
                Input::new(
                    Symbol::LargestLoadCurrent,
                    largest_a,
                    Unit::Ampere,
                    InputSource::LargestFromBattery,
                ),
            ];
            inputs.extend(last);
            inputs
        };
        lines.push(CalculationLine {
            quantity: Quantity::CapacityByAnnex,
            formula: Formula::CapacityByAnnex,
            inputs: inputs(Some(Input::new(
                Symbol::AnnexFactor,
                factor.value(),
                Unit::Ratio,
                InputSource::AnnexFactor,
            ))),
            result: Figure::new(annex_ah, Unit::AmpereHour),
            rounding: Rounding::Up,
            limit: None,
            source: FormulaSource::BatteryAnnex,
        });
        lines.push(CalculationLine {
            quantity: Quantity::CapacityBySum,
            formula: Formula::CapacityBySum,
            inputs: inputs(None),
            result: Figure::new(sum_ah, Unit::AmpereHour),
            rounding: Rounding::Up,
            limit: None,
            source: FormulaSource::Nfpa72,
        });
    }
    if let (Some(current_a), Some(hours)) = (battery.charge_current_a, battery.recharge_hours) {
        lines.push(CalculationLine {
            quantity: Quantity::RechargeHours,
            formula: Formula::RechargeHours,
            inputs: vec![
                of_key(Symbol::Capacity, battery.capacity_ah, Unit::AmpereHour, "capacity"),
                of_key(Symbol::ChargingCurrent, current_a, Unit::Ampere, "charge_current"),
            ],
            result: Figure::new(hours, Unit::Hour),
            rounding: Rounding::Up,
            limit: Some(Limit::most(latchline_circuit::battery::charger::USUAL_HOURS, Unit::Hour)),
            source: FormulaSource::Recharge,
        });
    }
}

fn mains_lines(context: &Context<'_>, supply: usize, mains: &MainsFigures, lines: &mut Vec<CalculationLine>) {
    let site_supply = &context.site.supplies[supply];
    let model = context.site.supply_model(site_supply);
    let name = &model.head.name;
    if let (Some(derated_w), Some(rated), Some(limit), Some(slope), Some(ambient)) = (
        mains.derated_w,
        &model.rated_power,
        &model.ambient_limit,
        &model.derating_per_kelvin,
        Some(super::hottest_c(site_supply)),
    ) {
        lines.push(CalculationLine {
            quantity: Quantity::PowerWhenHot,
            formula: Formula::PowerWhenHot,
            inputs: vec![
                Input::of_key(Symbol::RatedPower, rated.value.as_watts(), Unit::Watt, name, "rated_power"),
                Input::of_key(
                    Symbol::DeratingPerKelvin,
                    slope.value.as_fraction(),
                    Unit::Percent,
                    name,
                    "derating_per_kelvin",
                ),
                Input::of_key(
                    Symbol::Temperature,
                    ambient,
                    Unit::Celsius,
                    site_supply.id.as_str(),
                    "ambient",
                ),
                Input::of_key(
                    Symbol::LimitTemperature,
                    limit.value.as_celsius(),
                    Unit::Celsius,
                    name,
                    "ambient_limit",
                ),
            ],
            result: Figure::new(derated_w, Unit::Watt),
            rounding: Rounding::Down,
            limit: Some(Limit::least(mains.output_w, Unit::Watt)),
            source: FormulaSource::Derating,
        });
    }
    let Some(efficiency) = &model.efficiency else { return };
    let power = Input::new(
        Symbol::Power,
        mains.output_w + mains.charging_w,
        Unit::Watt,
        InputSource::LargestAndCharging,
    );
    let efficiency =
        Input::of_key(Symbol::Efficiency, efficiency.value.as_fraction(), Unit::Percent, name, "efficiency");
    if let (Some(current_a), Some(factor), Some(voltage)) =
        (mains.mains_current_a, &model.power_factor, &model.mains_voltage)
    {
        lines.push(CalculationLine {
            quantity: Quantity::MainsCurrent,
            formula: Formula::MainsCurrent,
            inputs: vec![
                power.clone(),
                efficiency.clone(),
                Input::of_key(
                    Symbol::PowerFactor,
                    factor.value.as_fraction(),
                    Unit::Ratio,
                    name,
                    "power_factor",
                ),
                Input::of_key(
                    Symbol::MainsVoltage,
                    voltage.value.as_volts(),
                    Unit::Volt,
                    name,
                    "mains_voltage",
                ),
            ],
            result: Figure::new(current_a, Unit::Ampere),
            rounding: Rounding::Up,
            limit: None,
            source: FormulaSource::SinglePhase,
        });
    }
    if let Some(heat_w) = mains.heat_w {
        lines.push(CalculationLine {
            quantity: Quantity::Heat,
            formula: Formula::Heat,
            inputs: vec![power, efficiency],
            result: Figure::new(heat_w, Unit::Watt),
            rounding: Rounding::Up,
            limit: None,
            source: FormulaSource::HeatStays,
        });
    }
}
