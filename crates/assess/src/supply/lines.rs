//! The calculations of a supply's sheet, line by line.

use super::battery::BatteryFigures;
use super::mains::MainsFigures;
use crate::calculation::{
    CalculationLine, Formula, FormulaSource, Input, InputSource, Limit, Quantity, Rounding, Symbol,
};
use crate::context::Context;
use latchline_circuit::battery::AGEING_FACTOR;
use latchline_finding::{Figure, Unit};

pub(super) fn battery_lines(name: &str, battery: &BatteryFigures, lines: &mut Vec<CalculationLine>) {
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
                formula: match calls.always {
                    0 => Formula::CurrentWithCalls,
                    _ => Formula::CurrentWithCallsAtOnce,
                },
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
                    match calls.always_current_a {
                        Some(current_a) => {
                            let current_a = current_a.max(load.battery_current_a);
                            let source = InputSource::CallsThatAlwaysStand;
                            Input::new(Symbol::Current, current_a, Unit::Ampere, source)
                        }
                        None => {
                            let source = InputSource::LineAbove;
                            Input::new(Symbol::Current, load.battery_current_a, Unit::Ampere, source)
                        }
                    },
                    Input::new(
                        Symbol::CallCurrent,
                        calls.battery_current_a,
                        Unit::Ampere,
                        match calls.always {
                            0 => InputSource::OneCallFromBattery,
                            _ => InputSource::OneCallMore,
                        },
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

pub(super) fn mains_lines(
    context: &Context<'_>,
    supply: usize,
    mains: &MainsFigures,
    lines: &mut Vec<CalculationLine>,
) {
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
    let load = match model.battery {
        Some(_) => InputSource::LargestAndCharging,
        None => InputSource::LargestOnMains,
    };
    let power = Input::new(Symbol::Power, mains.output_w + mains.charging_w, Unit::Watt, load);
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
