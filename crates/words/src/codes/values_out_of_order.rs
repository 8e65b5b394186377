//! `values-out-of-order`

code! {
    "values-out-of-order"
    title: "Two values contradict each other" | "Zwei Werte widersprechen sich",
    message: "\"{key}\" may not exceed \"{other_key}\"" | "„{key}“ darf nicht größer als „{other_key}“ sein",
    label: "too large" | "zu groß",
    english:
        /// The first may not exceed the second: the first and last number of an address field, a turn-off and a turn-on voltage, a least and a highest voltage, the coldest and the hottest air around a supply.
    german:
        /// Der erste Wert darf den zweiten nicht übersteigen: die erste und die letzte Nummer eines Adressfelds, eine Aus- und eine Einschaltspannung, eine kleinste und eine höchste Spannung, die kälteste und die wärmste Luft um ein Netzteil.
}
