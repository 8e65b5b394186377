//! What other crates refuse, as refusals.

use crate::plain_fault::PlainFault;
use crate::refusal::Refusal;
use latchline_locate::RatesError;
use latchline_network::GivenUp;
use latchline_network::tolerance::engine::MOST_SAMPLES;
use latchline_network::tolerance::{SampleError, ToleranceError};
use latchline_pack::PackError;
use latchline_reach::BareSiteError;
use latchline_site::edit::EditError;
use latchline_store::StoreError;
use latchline_typeset::TypesetError;
use latchline_words::refusals::{ArgumentRefusal, FileRefusal, SystemRefusal};

impl From<GivenUp> for Refusal {
    fn from(_: GivenUp) -> Self {
        SystemRefusal::GivenUp.into()
    }
}

impl From<EditError> for Refusal {
    fn from(error: EditError) -> Self {
        Refusal::new(error.both())
    }
}

impl From<BareSiteError> for Refusal {
    fn from(error: BareSiteError) -> Self {
        Refusal::new(error.both())
    }
}

impl From<StoreError> for Refusal {
    fn from(error: StoreError) -> Self {
        Refusal::new(error.both())
    }
}

impl From<RatesError> for Refusal {
    fn from(error: RatesError) -> Self {
        match &error {
            RatesError::Syntax { line, detail } => FileRefusal::RatesSyntax { line: *line, detail }.into(),
            RatesError::Value(key) => FileRefusal::RateMissing { key }.into(),
            RatesError::Unknown(key) => FileRefusal::RateUnknown { key }.into(),
            RatesError::Shares(group) => FileRefusal::RateShares { group }.into(),
        }
    }
}

impl From<PackError> for Refusal {
    fn from(error: PackError) -> Self {
        Refusal::new(error.both())
    }
}

impl From<ToleranceError> for Refusal {
    fn from(ToleranceError::Sample(error): ToleranceError) -> Self {
        match error {
            SampleError::Samples(samples) => {
                let (samples, most) = (&samples.to_string(), &MOST_SAMPLES.to_string());
                ArgumentRefusal::NoSamples { samples, most }.into()
            }
            other => Refusal::of_library(&other),
        }
    }
}

impl From<TypesetError> for Refusal {
    fn from(error: TypesetError) -> Self {
        Refusal::new(error.both())
    }
}

/// These say it in their own words, in English: faults of a plain file for programs, of the store, which has no other language, and
/// what no user can bring about.
macro_rules! in_their_own_words {
    ($($error:ty),* $(,)?) => {
        $(impl From<$error> for Refusal {
            fn from(error: $error) -> Self {
                Refusal::of_library(&error)
            }
        })*
    };
}

in_their_own_words!(
    PlainFault,
    latchline_circuit::flow::LoadError,
    latchline_circuit::flow::MonteCarloError,
    latchline_circuit::signal::TreeError,
    std::fmt::Error,
    serde_json::Error,
);
