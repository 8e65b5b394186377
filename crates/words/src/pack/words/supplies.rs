//! Supplies and batteries.

/// Hands these rows and those before them on to the next table.
macro_rules! supplies {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        AgeingRemark: "what is counted of the battery" | "was von der Batterie gerechnet wird",
        Ambient: "Ambient temperature" | "Umgebungstemperatur",
        Battery: "Battery" | "Batterie",
        BatteryCapacity: "Capacity of the battery" | "Kapazität der Batterie",
        BatteryHours: "Hours on battery" | "Überbrückungszeit",
        BatteryVoltage: "Voltage of the battery" | "Spannung der Batterie",
        CapacityCountedOn: "Capacity after age and cold" | "Kapazität nach Alterung und Kälte",
        ChargeCurrent: "Charging current" | "Ladestrom",
        ChargingPower: "Power for charging" | "Ladeleistung",
        ChargingWaits:
            "what the load leaves of the rated power"
            | "was die Last von der Nennleistung übrig lässt",
        Heat: "Heat in the cupboard" | "Verlustwärme",
        MainsCurrent: "Mains current" | "Netzstrom",
        NoBattery: "none: without mains nothing works" | "keine: Ohne Netz geht nichts",
        OutputPower: "Largest output power on mains" | "Größte Ausgangsleistung am Netz",
        RechargeHours: "Hours to recharge" | "Ladezeit",
        SuppliesTitle: "Battery and supply sheet" | "Datenblatt der Netzteile und Batterien",
        }
    };
}

pub(super) use supplies;
