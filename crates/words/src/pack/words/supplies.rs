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
        BatteryFuse: "Fuse of the battery" | "Sicherung der Batterie",
        CupboardsNote:
            "A page for each place with a supply or a distributor, and the earth bars of doors; a branch box by itself is on its job card. What is empty in the column of values is found on site and written down."
            | "Eine Seite je Ort mit Netzteil oder Verteiler, dazu die Erdungsschienen an Türen; eine Abzweigdose allein steht auf ihrer Arbeitskarte. Was in der Spalte der Werte leer ist, wird vor Ort festgestellt und notiert.",
        CupboardsTitle: "Cupboards" | "Verteilungen",
        BarToMainEarth:
            "joined to the main earthing terminal; by a licensed electrician"
            | "mit der Haupterdungsschiene verbunden; durch eine Elektrofachkraft",
        BarConductor:
            "Conductor from an earth bar to the main earthing terminal, green-and-yellow, no thinner than the thickest on the bar; length to be measured on site"
            | "Leiter von einer Erdungsschiene zur Haupterdungsschiene, grün-gelb, nicht dünner als der dickste an der Schiene; Länge vor Ort zu messen",
        BarConductorOutside:
            "Conductor from an earth bar outdoors to the earth electrode there, and on to the main earthing terminal of the building, green-and-yellow, no thinner than the thickest on the bar; electrode and length to be settled on site"
            | "Leiter von einer Erdungsschiene im Freien zum Erder dort und weiter zur Haupterdungsschiene des Gebäudes, grün-gelb, nicht dünner als der dickste an der Schiene; Erder und Länge vor Ort zu klären",
        BarOutside:
            "not in the plan: joined to an earth electrode at this place, and that to the main earthing terminal of the building that feeds it; by a licensed electrician"
            | "nicht im Plan: mit einem Erder an diesem Ort verbunden, dieser mit der Haupterdungsschiene des Gebäudes, aus dem er gespeist wird; durch eine Elektrofachkraft",
        EarthBar: "Earth and screen bar" | "Erdungs- und Schirmschiene",
        FuseInEachLead:
            "in the plus lead of each battery"
            | "in der Plusleitung jeder Batterie",
        FuseNotStated:
            "not in the plan: as the maker of the supply states"
            | "nicht im Plan: nach Angabe des Netzteilherstellers",
        MainsFuse: "Mains circuit and its fuse" | "Netzstromkreis und Sicherung",
        NothingToEarth: "nothing to earth here" | "hier ist nichts zu erden",
        MainsCurrent: "Mains current" | "Netzstrom",
        NoBattery: "none: without mains nothing works" | "keine: Ohne Netz geht nichts",
        OutputPower: "Largest output power on mains" | "Größte Ausgangsleistung am Netz",
        RechargeHours: "Hours to recharge" | "Ladezeit",
        SuppliesTitle: "Battery and supply sheet" | "Datenblatt der Netzteile und Batterien",
        }
    };
}

pub(super) use supplies;
