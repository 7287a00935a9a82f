//! The uncertainty of a photo's values, taken apart.

use evenshod::gauge::Estimates;
use evenshod::piece::Feature;
use nalgebra::{DMatrix, DVector};

fn estimates(own: &[f64], shared: &DMatrix<f64>) -> Estimates {
    let squares = DVector::from_iterator(own.len(), own.iter().map(|own| own * own));
    Estimates {
        features: Feature::ALL.into_iter().take(own.len()).collect(),
        values: vec![100.0; own.len()],
        covariance: DMatrix::from_diagonal(&squares) + shared,
        shared: shared.clone(),
        places: Vec::new(),
    }
}

/// One cause that all share, such as the camera's height, is told as it is: JCGM 102:2011, 6.2,
/// worked backwards. A difference of two values takes it out as it should.
#[test]
fn one_shared_cause_comes_out_as_it_went_in() {
    let cause = DVector::from_vec(vec![0.20, 0.10, -0.05]);
    let parts = estimates(&[0.1, 0.2, 0.02], &(&cause * cause.transpose())).parts();
    let told: Vec<(f64, f64)> = parts.iter().map(|part| (part.own, part.shared)).collect();
    for ((own, shared), (wanted, cause)) in told.iter().zip([0.1, 0.2, 0.02].iter().zip(&cause)) {
        assert!((own - wanted).abs() < 1e-9, "{told:?}");
        assert!((shared - cause).abs() < 1e-9, "{told:?}");
    }
}

/// Of two causes the larger is told as shared; the whole of every value stays as it was.
#[test]
fn the_whole_of_each_value_stays() {
    let (one, other) = (
        DVector::from_vec(vec![0.3, 0.25, 0.002]),
        DVector::from_vec(vec![0.02, -0.05, 0.004]),
    );
    let shared = &one * one.transpose() + &other * other.transpose();
    let estimates = estimates(&[0.1, 0.1, 0.001], &shared);
    let whole = estimates.uncertainties();
    for (part, whole) in estimates.parts().iter().zip(whole) {
        let both = part.own.hypot(part.shared);
        assert!((both / whole - 1.0).abs() < 1e-9, "{both} of {whole}");
    }
    let nothing = DMatrix::zeros(2, 2);
    let alone = self::estimates(&[0.1, 0.2], &nothing).parts();
    assert!(alone.iter().all(|part| part.shared == 0.0), "{alone:?}");
}
