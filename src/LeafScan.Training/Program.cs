using LeafScan.Training.Commands;

return await TrainingCommand.Build().Parse(args).InvokeAsync();
