//! The sheet of one supply, as owned data.

use super::battery::{BatteryFigures, battery_figures};
use super::stage_of_supply;
use crate::calculation::{CalculationLine, Input, Limit, Rounding};
use crate::rule::Context;
use crate::stage::WithVoltages;
use latchline_circuit::battery::{AGEING_FACTOR, derated_power_w, heat_w, mains_current_a};
use latchline_finding::{ElementId, Figure, StateKind, Unit};

/// What a supply takes from the mains, and its heat.
#[derive(Debug, Clone, PartialEq)]
pub struct MainsFigures {
    /// Power at its output in the busiest of its states with mains, in watts.
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
    pub missing: Vec<String>,
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
    pub place: String,
    /// Ambient temperature of its cupboard in °C, where stated.
    pub ambient_c: Option<f64>,
    /// Highest ambient temperature at rated load in °C, where stated.
    pub ambient_limit_c: Option<f64>,
    /// Mains and heat; `None` where nothing is fed or there is no operating point.
    pub mains: Option<MainsFigures>,
    /// Its battery: `None` without one, the missing values where it could not be judged.
    pub battery: Option<Result<BatteryFigures, Vec<String>>>,
    /// The figures as a calculation, line by line.
    pub calculation: Vec<CalculationLine>,
}

impl SupplySheet {
    /// Whether the hours of its battery are judged: it has one, its data are complete, and the site asks for hours.
    pub fn judges_hours(&self) -> bool {
        matches!(&self.battery, Some(Ok(battery)) if battery.required_hours.is_some())
    }

    /// Assumed values under the hours of its battery, where the site asks for hours, as "part key".
    pub fn assumed(&self) -> Vec<String> {
        match &self.battery {
            Some(Ok(battery)) if battery.required_hours.is_some() => battery.assumed.list().to_vec(),
            _ => Vec::new(),
        }
    }
}

/// Mains and heat of a supply in its busiest state.
pub fn mains_figures(context: &WithVoltages<'_>, supply: usize) -> Option<MainsFigures> {
    let stage = stage_of_supply(context, supply)?;
    let model = context.site.supply_model(&context.site.supplies[supply]);
    let current = context.worst.mains_current[stage].as_ref()?;
    let phase = &context.space.phases[current.phase];
    let output_w = current.current_a? * phase.voltage_v[stage]?;
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
    let mut need = |key: &str, is_missing: bool| {
        if is_missing {
            missing.push(format!("{name} {key}"));
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
    let ambient_c = supply.ambient.as_ref()?.value.as_celsius();
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
            calculation,
        }
    });
    sheets.collect()
}

fn battery_lines(name: &str, battery: &BatteryFigures, lines: &mut Vec<CalculationLine>) {
    let part = |key: &str| format!("{name} battery {key}");
    lines.push(CalculationLine {
        quantity: "capacity-counted-on",
        formula: "Ce = C / a / F",
        inputs: vec![
            Input::new("C", battery.capacity_ah, Unit::AmpereHour, &part("capacity")),
            Input::new("a", AGEING_FACTOR, Unit::Ratio, "ageing, replaced at 80 %"),
            Input::new("F", battery.temperature_factor, Unit::Ratio, "lead-acid, by temperature"),
        ],
        result: Figure::new(battery.effective_ah, Unit::AmpereHour),
        rounding: Rounding::Down,
        limit: None,
        source: "IEEE 485, ageing and temperature (table from memory)",
    });
    if let Some(load) = battery.shortest() {
        lines.push(CalculationLine {
            quantity: "battery-current",
            formula: "I = P / (n Vb)",
            inputs: vec![
                Input::new("P", load.bus_power_w, Unit::Watt, "standby at the adverse corner"),
                Input::new("n", battery.efficiency, Unit::Percent, &part("efficiency")),
                Input::new("Vb", battery.voltage_v, Unit::Volt, &part("voltage")),
            ],
            result: Figure::new(load.battery_current_a, Unit::Ampere),
            rounding: Rounding::Up,
            limit: None,
            source: "conservation of energy",
        });
        lines.push(CalculationLine {
            quantity: "standby-hours",
            formula: "t = H (Ce / (I H))^k, at most Ce / I",
            inputs: vec![
                Input::new("H", battery.rated_hours, Unit::Hour, &part("rated_hours")),
                Input::new("Ce", battery.effective_ah, Unit::AmpereHour, "the first line")
                    .rounded(Rounding::Down),
                Input::new("I", load.battery_current_a, Unit::Ampere, "the line above"),
                Input::new("k", battery.peukert_exponent, Unit::Ratio, &part("peukert_exponent")),
            ],
            result: Figure::new(load.hours, Unit::Hour),
            rounding: Rounding::Down,
            limit: battery.required_hours.map(|hours| Limit::least(hours, Unit::Hour)),
            source: "Peukert's law in its rated-time form",
        });
    }
    let heaviest_a = battery.loads.iter().map(|load| load.battery_current_a).fold(0.0, f64::max);
    if let (Some(required), Some((_, largest_a)), Some((annex_ah, factor)), Some(sum_ah)) =
        (battery.required_hours, battery.largest, battery.by_annex, battery.by_sum_ah)
    {
        let inputs = |last: Option<Input>| {
            let mut inputs = vec![
                Input::new("T1", required, Unit::Hour, "policy standby_hours"),
                Input::new("I1", heaviest_a, Unit::Ampere, "standby, from the battery"),
                Input::new(
                    "T2",
                    super::battery::LARGEST_LOAD_HOURS,
                    Unit::Hour,
                    "half an hour of the largest load",
                ),
                Input::new("I2", largest_a, Unit::Ampere, "largest load, from the battery"),
            ];
            inputs.extend(last);
            inputs
        };
        lines.push(CalculationLine {
            quantity: "capacity-by-annex",
            formula: "C = 1.25 (T1 I1 + D T2 I2)",
            inputs: inputs(Some(Input::new(
                "D",
                factor.value(),
                Unit::Ratio,
                "1 if C / 20 >= I2, else 1.75",
            ))),
            result: Figure::new(annex_ah, Unit::AmpereHour),
            rounding: Rounding::Up,
            limit: None,
            source: "pattern of BS 5839-1, battery annex, for comparison with the capacity fitted; no demand on door entry",
        });
        lines.push(CalculationLine {
            quantity: "capacity-by-sum",
            formula: "C = 1.2 (T1 I1 + T2 I2)",
            inputs: inputs(None),
            result: Figure::new(sum_ah, Unit::AmpereHour),
            rounding: Rounding::Up,
            limit: None,
            source: "pattern of NFPA 72 10.6.7, for comparison with the capacity fitted; no demand on door entry",
        });
    }
    if let (Some(current_a), Some(hours)) = (battery.charge_current_a, battery.recharge_hours) {
        lines.push(CalculationLine {
            quantity: "recharge-hours",
            formula: "t = 0.8 C 1.2 / Ic",
            inputs: vec![
                Input::new("C", battery.capacity_ah, Unit::AmpereHour, &part("capacity")),
                Input::new("Ic", current_a, Unit::Ampere, &part("charge_current")),
            ],
            result: Figure::new(hours, Unit::Hour),
            rounding: Rounding::Up,
            limit: Some(Limit::most(latchline_circuit::battery::charger::USUAL_HOURS, Unit::Hour)),
            source: "four fifths back, charge factor 1.2 (common practice); 24 h after EN 54-4 (from memory)",
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
        &site_supply.ambient,
    ) {
        let celsius = |symbol, value: f64, source: &str| Input::new(symbol, value, Unit::Celsius, source);
        lines.push(CalculationLine {
            quantity: "power-when-hot",
            formula: "Ph = Pr (1 - s (t - tr)), not below 0",
            inputs: vec![
                Input::new("Pr", rated.value.as_watts(), Unit::Watt, &format!("{name} rated_power")),
                Input::new(
                    "s",
                    slope.value.as_fraction(),
                    Unit::Percent,
                    &format!("{name} derating_per_kelvin"),
                ),
                celsius("t", ambient.value.as_celsius(), &format!("{} ambient", site_supply.id)),
                celsius("tr", limit.value.as_celsius(), &format!("{name} ambient_limit")),
            ],
            result: Figure::new(derated_w, Unit::Watt),
            rounding: Rounding::Down,
            limit: Some(Limit::least(mains.output_w, Unit::Watt)),
            source: "linear derating as data sheets give it; held against the largest load with mains",
        });
    }
    let Some(efficiency) = &model.efficiency else { return };
    let power = Input::new(
        "P",
        mains.output_w + mains.charging_w,
        Unit::Watt,
        "largest load with mains, and charging",
    );
    let efficiency =
        Input::new("n", efficiency.value.as_fraction(), Unit::Percent, &format!("{name} efficiency"));
    if let (Some(current_a), Some(factor), Some(voltage)) =
        (mains.mains_current_a, &model.power_factor, &model.mains_voltage)
    {
        lines.push(CalculationLine {
            quantity: "mains-current",
            formula: "I = P / (n f V)",
            inputs: vec![
                power.clone(),
                efficiency.clone(),
                Input::new("f", factor.value.as_fraction(), Unit::Ratio, &format!("{name} power_factor")),
                Input::new("V", voltage.value.as_volts(), Unit::Volt, &format!("{name} mains_voltage")),
            ],
            result: Figure::new(current_a, Unit::Ampere),
            rounding: Rounding::Up,
            limit: None,
            source: "single phase, root mean square",
        });
    }
    if let Some(heat_w) = mains.heat_w {
        lines.push(CalculationLine {
            quantity: "heat",
            formula: "Q = P (1/n - 1)",
            inputs: vec![power, efficiency],
            result: Figure::new(heat_w, Unit::Watt),
            rounding: Rounding::Up,
            limit: None,
            source: "what does not leave as power stays in the cupboard",
        });
    }
}
