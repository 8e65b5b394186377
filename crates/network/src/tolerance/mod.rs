//! Tolerance by sampling: how likely the device with the least margin falls below its limit, beside the verdict
//! at the adverse corner.
//!
//! # The model
//!
//! For every stage, the device with the least margin in its worst state, with the set of calls that is worst for it. The
//! voltages follow from the flow of that stage with
//!
//! | factor | kind | distribution |
//! |---|---|---|
//! | source voltage | common to the stage | rectangular within its tolerance |
//! | temperature | common to the stage | rectangular from the coldest to the hottest |
//! | drum of a cable | common to all runs of that cable | rectangular within its resistance tolerance |
//! | batch of a model | common to all stations of that model | rectangular within half the load tolerance |
//! | length of a run | each run its own | rectangular within the length tolerance |
//! | load of a station | each its own | rectangular within half the load tolerance |
//!
//! Rectangular is what is known when only limits are stated (JCGM 101, 6.4.2, number from memory). That half of a load's tolerance is
//! common to a model is an assumption; sampling every load on its own would flatter the tail. Stages below a converter keep
//! their nominal power. A sample without an operating point counts as below the limit.
//!
//! # What is claimed
//!
//! The confidence interval of the probability is that of Clopper and Pearson (Biometrika 26, 1934): its coverage is
//! at least the stated level for independent samples of one probability, which is the probability *in this model*.
//! The share of a factor is its squared correlation with the voltage, less 1/n for what chance alone gives: for
//! independent factors and a voltage that is nearly linear in them the shares add up to about 1.
//!
//! Samples come in blocks of [`engine::BLOCK`], each with its own stream of ChaCha8 numbers, so the seed alone decides,
//! whatever the number of threads.

pub mod engine;
mod site_model;

pub use engine::{Distribution, SampleError, Sampled, clopper_pearson, sample};
pub use site_model::{FactorShare, StageTolerance, ToleranceError, ToleranceOptions, tolerance};
