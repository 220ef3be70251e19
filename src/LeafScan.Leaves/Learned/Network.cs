using Microsoft.ML.OnnxRuntime;
using Microsoft.ML.OnnxRuntime.Tensors;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// One dense network from a model file. Loading costs tens of milliseconds and happens once; running is safe from several
/// threads. Inputs are planes of 32-bit floats; height and width are multiples of 32.
/// </summary>
internal sealed class Network : IDisposable
{
    /// <summary>Height and width given to the network are multiples of this.</summary>
    public const int Step = 32;

    private readonly InferenceSession _session;

    private Network(InferenceSession session) => _session = session;

    /// <summary>Loads a model file.</summary>
    /// <param name="file">Path of the ONNX file.</param>
    /// <param name="threads">Threads one run may use.</param>
    public static Network Load(string file, int threads)
    {
        using SessionOptions options = new()
        {
            GraphOptimizationLevel = GraphOptimizationLevel.ORT_ENABLE_ALL,
            IntraOpNumThreads = threads,
            InterOpNumThreads = 1,
            LogSeverityLevel = OrtLoggingLevel.ORT_LOGGING_LEVEL_ERROR,

            // Every leaf has its own size: plans kept per size would make memory grow over a batch. Without an arena every layer
            // takes fresh memory from the system, which then costs half as much again as the computing (docs/decisions/029).
            EnableMemoryPattern = false,
            EnableCpuMemArena = true,
        };

        // A thread that waits for the other by spinning takes its time from whatever else runs on two processors.
        options.AddSessionConfigEntry("session.intra_op.allow_spinning", "0");
        return new Network(new InferenceSession(file, options));
    }

    /// <summary>Whether the model's outputs are bytes: <see cref="RunToBytes"/> is for those, <see cref="Run"/> for floats.</summary>
    public bool AnswersInBytes => _session.OutputMetadata.Values.All(output => output.ElementType == typeof(byte));

    /// <summary>Runs the network on planes laid out channel by channel.</summary>
    /// <param name="planes">channels x size.Height x size.Width floats.</param>
    /// <param name="channels">Number of planes.</param>
    /// <param name="size">Size of a plane.</param>
    /// <param name="use">Receives the outputs in the order of the model; they are gone when it returns.</param>
    public void Run(float[] planes, int channels, Size size, Action<ReadOnlyMemory<float>[]> use)
        => Outputs(planes, channels, size, outputs => use(outputs.Select(o => (ReadOnlyMemory<float>)((DenseTensor<float>)o.AsTensor<float>()).Buffer).ToArray()));

    /// <summary>Runs a network whose answer is bytes.</summary>
    /// <param name="planes">channels x size.Height x size.Width floats.</param>
    /// <param name="channels">Number of planes.</param>
    /// <param name="size">Size of a plane.</param>
    /// <param name="use">Receives the outputs in the order of the model; they are gone when it returns.</param>
    public void RunToBytes(float[] planes, int channels, Size size, Action<ReadOnlyMemory<byte>[]> use)
        => Outputs(planes, channels, size, outputs => use(outputs.Select(o => (ReadOnlyMemory<byte>)((DenseTensor<byte>)o.AsTensor<byte>()).Buffer).ToArray()));

    private void Outputs(float[] planes, int channels, Size size, Action<IReadOnlyCollection<DisposableNamedOnnxValue>> use)
    {
        DenseTensor<float> tensor = new(planes.AsMemory(0, channels * size.Height * size.Width), [1, channels, size.Height, size.Width]);
        using RunOptions settings = new();

        // What the arena took for this picture goes back when the run is over.
        settings.AddRunConfigEntry("memory.enable_memory_arena_shrinkage", "cpu:0");
        using IDisposableReadOnlyCollection<DisposableNamedOnnxValue> outputs =
            _session.Run([NamedOnnxValue.CreateFromTensor(_session.InputNames[0], tensor)], _session.OutputNames, settings);
        use(outputs);
    }

    /// <inheritdoc />
    public void Dispose() => _session.Dispose();
}
