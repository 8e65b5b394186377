//! What a simulated start depends on, as a key.

use super::system::Built;
use crate::memory::{Fingerprint, Key};
use latchline_circuit::startup::{
    BusCapacitor, BusDevice, BusLoad, Converter, Port, PortLimit, Supply, System,
};

/// The system in full and the nodes that are recorded. Every
/// part is taken apart by name, so that a figure that is added to one cannot be left out here.
pub(super) fn of(built: &Built, record: &[usize]) -> Key {
    let System { parent, loop_resistance_ohm, supply, ports, devices, bus_loads, bus_capacitors } =
        &built.system;
    let mut key = Fingerprint::new();
    key.counts(record.iter().copied());
    key.counts(parent.iter().map(|parent| *parent as usize));
    key.numbers(loop_resistance_ohm);
    add_supply(&mut key, supply);
    key.count(ports.len());
    for Port { node, limit, closes_at_s } in ports {
        key.count(*node).number(*closes_at_s);
        match *limit {
            PortLimit::None => key.count(0),
            PortLimit::ConstantCurrent { current_a } => key.count(1).number(current_a),
            PortLimit::Trip { current_a, trip_time_s, retry_time_s } => {
                key.count(2).number(current_a).number(trip_time_s).optional(retry_time_s)
            }
        };
    }
    key.count(devices.len());
    for device in devices {
        add_device(&mut key, device);
    }
    key.count(bus_loads.len());
    for BusLoad { node, current_a, conductance_s } in bus_loads {
        key.count(*node).number(*current_a).number(*conductance_s);
    }
    key.count(bus_capacitors.len());
    for BusCapacitor { node, capacitance_f, initial_voltage_v } in bus_capacitors {
        key.count(*node).number(*capacitance_f).number(*initial_voltage_v);
    }
    key.finish()
}

fn add_supply(key: &mut Fingerprint, supply: &Supply) {
    let Supply { voltage_v, resistance_ohm, limit, output_capacitance_f, initial_voltage_v, ramp_time_s } =
        *supply;
    key.number(voltage_v).number(resistance_ohm).number(output_capacitance_f);
    key.number(initial_voltage_v).number(ramp_time_s).limit(limit);
}

fn add_device(key: &mut Fingerprint, device: &BusDevice) {
    let BusDevice {
        node,
        capacitance_f,
        bridge_drop_v,
        initial_voltage_v,
        discharge_s,
        inrush_limit_a,
        converter,
    } = *device;
    key.count(node).number(capacitance_f).number(bridge_drop_v).number(initial_voltage_v);
    key.number(discharge_s).optional(inrush_limit_a).count(usize::from(converter.is_some()));
    if let Some(converter) = converter {
        let Converter { turn_on_v, turn_off_v, delay_s, boot_power_w, boot_time_s, running_power_w } =
            converter;
        key.number(turn_on_v).number(turn_off_v).number(delay_s);
        key.number(boot_power_w).number(boot_time_s).number(running_power_w);
    }
}
