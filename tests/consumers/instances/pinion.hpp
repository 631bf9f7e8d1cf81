// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#pragma once

double tip_diameter_of_pinion(int teeth);
