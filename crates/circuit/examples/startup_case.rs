//! Simulates a start-up case given as plain text on standard input and prints a table.
//!
//! One item a line, words separated by blanks, `#` starts a comment. Units: V, A, ohm, F, W, S, s.
//!
//! ```text
//! supply VOLTAGE RESISTANCE [capacitance F] [initial V] [ramp S]
//! limit none | constant A | foldback MAX_A KNEE_V SHORT_A | hiccup A TRIP_S OFF_S
//! node PARENT RESISTANCE                     nodes number themselves from 1
//! port NODE constant A | trip A TRIP_S RETRY_S|never | switch   [closes S]
//! device NODE CAPACITANCE DROP INITIAL [inrush A] [discharge S]
//!        [converter ON OFF DELAY BOOT_W BOOT_S RUN_W]
//! load NODE CURRENT CONDUCTANCE
//! capacitor NODE CAPACITANCE INITIAL
//! end S
//! tolerance V
//! repeat TIMES                               simulate that often (for benches)
//! ```
//!
//! Output, one item a line: `outcome KIND ...`, `device INDEX STATUS FIRST_START FIRST_UP SINCE
//! DROPOUTS CAPACITOR_V` (`-` for none), `node INDEX VOLTAGE`, `supply CURRENT`, `trips TIME...`,
//! `steps TAKEN DISCARDED EVENTS`. Exit status 2 and a message if the input is refused.
#![allow(clippy::print_stdout, clippy::print_stderr)]

use std::io::Read;
use std::process::ExitCode;

use latchline_circuit::startup::{
    BusCapacitor, BusDevice, BusLoad, Converter, DeviceStatus, Options, Outcome, Port, PortLimit, StartUp,
    Supply, SupplyLimit, System, simulate,
};

fn main() -> ExitCode {
    let mut text = String::new();
    if let Err(error) = std::io::stdin().read_to_string(&mut text) {
        eprintln!("standard input: {error}");
        return ExitCode::from(2);
    }
    let (system, options, repeat) = match read(&text) {
        Ok(case) => case,
        Err(message) => {
            eprintln!("{message}");
            return ExitCode::from(2);
        }
    };
    let mut result = simulate(&system, &options);
    for _ in 1..repeat {
        result = simulate(&system, &options);
    }
    match result {
        Ok(start_up) => {
            print(&start_up);
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("{error}");
            ExitCode::from(2)
        }
    }
}

/// The words of one line, taken one by one.
struct Words<'a> {
    line: usize,
    words: std::iter::Peekable<std::str::SplitWhitespace<'a>>,
}

impl Words<'_> {
    fn number(&mut self) -> Result<f64, String> {
        let word = self.words.next().ok_or(format!("line {}: a number is missing", self.line))?;
        word.parse().map_err(|_| format!("line {}: {word} is not a number", self.line))
    }

    fn node(&mut self) -> Result<usize, String> {
        let word = self.words.next().ok_or(format!("line {}: a node is missing", self.line))?;
        word.parse().map_err(|_| format!("line {}: {word} is not a node", self.line))
    }

    fn word(&mut self) -> Option<String> {
        self.words.next().map(str::to_string)
    }

    fn unknown(&self, word: &str) -> String {
        format!("line {}: {word} is not known here", self.line)
    }
}

fn read(text: &str) -> Result<(System, Options, usize), String> {
    let mut system = System {
        parent: vec![0],
        loop_resistance_ohm: vec![0.0],
        supply: Supply {
            voltage_v: 0.0,
            resistance_ohm: 0.0,
            limit: SupplyLimit::None,
            output_capacitance_f: 0.0,
            initial_voltage_v: 0.0,
            ramp_time_s: 0.0,
        },
        ports: Vec::new(),
        devices: Vec::new(),
        bus_loads: Vec::new(),
        bus_capacitors: Vec::new(),
    };
    let mut options = Options::default();
    let mut repeat = 1;
    for (index, line) in text.lines().enumerate() {
        let line = line.split('#').next().unwrap_or("");
        let mut w = Words { line: index + 1, words: line.split_whitespace().peekable() };
        let Some(keyword) = w.word() else { continue };
        match keyword.as_str() {
            "supply" => read_supply(&mut w, &mut system.supply)?,
            "limit" => system.supply.limit = read_limit(&mut w)?,
            "node" => {
                let parent = u32::try_from(w.node()?).map_err(|_| w.unknown("the parent"))?;
                system.parent.push(parent);
                system.loop_resistance_ohm.push(w.number()?);
            }
            "port" => system.ports.push(read_port(&mut w)?),
            "device" => system.devices.push(read_device(&mut w)?),
            "load" => system.bus_loads.push(BusLoad {
                node: w.node()?,
                current_a: w.number()?,
                conductance_s: w.number()?,
            }),
            "capacitor" => system.bus_capacitors.push(BusCapacitor {
                node: w.node()?,
                capacitance_f: w.number()?,
                initial_voltage_v: w.number()?,
            }),
            "end" => options.end_s = w.number()?,
            "tolerance" => options.tolerance_v = w.number()?,
            "repeat" => repeat = w.node()?,
            other => return Err(w.unknown(other)),
        }
        if let Some(extra) = w.word() {
            return Err(w.unknown(&extra));
        }
    }
    Ok((system, options, repeat))
}

fn read_supply(w: &mut Words<'_>, supply: &mut Supply) -> Result<(), String> {
    supply.voltage_v = w.number()?;
    supply.resistance_ohm = w.number()?;
    while let Some(word) = w.word() {
        match word.as_str() {
            "capacitance" => supply.output_capacitance_f = w.number()?,
            "initial" => supply.initial_voltage_v = w.number()?,
            "ramp" => supply.ramp_time_s = w.number()?,
            other => return Err(w.unknown(other)),
        }
    }
    Ok(())
}

fn read_limit(w: &mut Words<'_>) -> Result<SupplyLimit, String> {
    match w.word().as_deref() {
        Some("none") => Ok(SupplyLimit::None),
        Some("constant") => Ok(SupplyLimit::ConstantCurrent { current_a: w.number()? }),
        Some("foldback") => Ok(SupplyLimit::Foldback {
            max_current_a: w.number()?,
            knee_voltage_v: w.number()?,
            short_current_a: w.number()?,
        }),
        Some("hiccup") => Ok(SupplyLimit::Hiccup {
            current_a: w.number()?,
            trip_time_s: w.number()?,
            off_time_s: w.number()?,
        }),
        other => Err(w.unknown(other.unwrap_or("nothing"))),
    }
}

fn read_port(w: &mut Words<'_>) -> Result<Port, String> {
    let node = w.node()?;
    let limit = match w.word().as_deref() {
        Some("switch") => PortLimit::None,
        Some("constant") => PortLimit::ConstantCurrent { current_a: w.number()? },
        Some("trip") => PortLimit::Trip {
            current_a: w.number()?,
            trip_time_s: w.number()?,
            retry_time_s: if w.words.next_if_eq(&"never").is_some() { None } else { Some(w.number()?) },
        },
        other => return Err(w.unknown(other.unwrap_or("nothing"))),
    };
    let mut closes_at_s = 0.0;
    if let Some(word) = w.word() {
        if word != "closes" {
            return Err(w.unknown(&word));
        }
        closes_at_s = w.number()?;
    }
    Ok(Port { node, limit, closes_at_s })
}

fn read_device(w: &mut Words<'_>) -> Result<BusDevice, String> {
    let mut device = BusDevice {
        node: w.node()?,
        capacitance_f: w.number()?,
        bridge_drop_v: w.number()?,
        initial_voltage_v: w.number()?,
        discharge_s: 0.0,
        inrush_limit_a: None,
        converter: None,
    };
    while let Some(word) = w.word() {
        match word.as_str() {
            "inrush" => device.inrush_limit_a = Some(w.number()?),
            "discharge" => device.discharge_s = w.number()?,
            "converter" => {
                device.converter = Some(Converter {
                    turn_on_v: w.number()?,
                    turn_off_v: w.number()?,
                    delay_s: w.number()?,
                    boot_power_w: w.number()?,
                    boot_time_s: w.number()?,
                    running_power_w: w.number()?,
                });
            }
            other => return Err(w.unknown(other)),
        }
    }
    Ok(device)
}

fn print(s: &StartUp) {
    let maybe = |x: Option<f64>| x.map_or("-".to_string(), |x| format!("{x:.9}"));
    match &s.outcome {
        Outcome::OperatingPoint { time_s, lowest_voltage_v, .. } => {
            println!("outcome operating-point {time_s:.9} {}", maybe(*lowest_voltage_v));
        }
        Outcome::Hiccups { cause, period_s } => {
            println!("outcome hiccups {} {cause:?}", maybe(*period_s));
        }
        Outcome::BrownOut { limited_by, open_ports } => {
            println!("outcome brown-out {limited_by:?} {open_ports:?}");
        }
        Outcome::Undecided => println!("outcome undecided"),
        Outcome::Stopped { reason } => println!("outcome stopped {reason:?}"),
    }
    for (i, d) in s.devices.iter().enumerate() {
        let (status, since_s) = match d.status {
            DeviceStatus::Up { since_s } => ("up", Some(since_s)),
            DeviceStatus::NeverUp => ("never", None),
            DeviceStatus::Cycles => ("cycles", None),
            DeviceStatus::Dropped => ("dropped", None),
            DeviceStatus::NoConverter => ("none", None),
        };
        println!(
            "device {i} {status} {} {} {} {} {:.9}",
            maybe(d.first_start_s),
            maybe(d.first_up_s),
            maybe(since_s),
            d.dropouts,
            d.capacitor_v
        );
    }
    for (k, v) in s.bus_voltage_v.iter().enumerate() {
        println!("node {k} {v:.9}");
    }
    println!("supply {:.9}", s.supply_current_a);
    print!("trips");
    for t in &s.supply_trips_s {
        print!(" {t:.9}");
    }
    println!();
    println!("steps {} {} {}", s.steps, s.discarded_steps, s.events);
    println!("end {:.9}", s.end_s);
}
