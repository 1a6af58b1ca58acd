using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>What a torque draws a bolt with: torque = K × diameter × force, K being the nut factor (reference "shigley-9").</summary>
/// <remarks>Good for estimates only: at one torque the preload of real bolts scatters by a quarter and more, which every use must allow for.</remarks>
public static class BoltTorque
{
    /// <summary>K of a bolt as it comes, without plating or grease.</summary>
    public const double PlainNutFactor = 0.30;

    /// <summary>K of a zinc-plated bolt.</summary>
    public const double ZincNutFactor = 0.20;

    /// <summary>K of a lubricated bolt.</summary>
    public const double LubricatedNutFactor = 0.18;

    /// <summary>K of a cadmium-plated bolt.</summary>
    public const double CadmiumNutFactor = 0.16;

    private const double HalfThreadAngle = Math.PI / 6;

    /// <summary>The torque that brings about a preload, N·m.</summary>
    /// <param name="nutFactor">K, above 0.</param>
    /// <param name="diameter">Nominal diameter, m.</param>
    /// <param name="force">Preload, N.</param>
    public static double Of(double nutFactor, double diameter, double force) => nutFactor * diameter * force;

    /// <summary>The nut factor from friction, for a thread of 60° whose collar bears at 1.25 diameters on the mean.</summary>
    /// <param name="diameter">Nominal diameter, m.</param>
    /// <param name="pitch">Pitch of the thread, m; small against the diameter.</param>
    /// <param name="threadFriction">Coefficient of friction in the thread.</param>
    /// <param name="collarFriction">Coefficient of friction under the head.</param>
    public static double NutFactor(double diameter, double pitch, double threadFriction, double collarFriction)
    {
        // Mean of the major diameter and of the minor diameter of a unified or metric thread.
        double mean = diameter - 3 * Math.Sqrt(3) / 8 * pitch;
        double lead = pitch / (Math.PI * mean), slope = threadFriction / Math.Cos(HalfThreadAngle);
        return mean / (2 * diameter) * (lead + slope) / (1 - lead * slope) + 0.625 * collarFriction;
    }

    /// <summary>The torques at which the preload lies in its band however it scatters, N·m; null when no torque does that.</summary>
    public static Band? Keeping(Preload preload)
    {
        double least = Of(preload.NutFactor, preload.Diameter, preload.Force.Least) / (1 - preload.Scatter);
        double most = Of(preload.NutFactor, preload.Diameter, preload.Force.Most) / (1 + preload.Scatter);
        return least <= most ? new Band(least, most, string.Create(CultureInfo.InvariantCulture, $"{least:0.##} N-m to {most:0.##} N-m")) : null;
    }
}
